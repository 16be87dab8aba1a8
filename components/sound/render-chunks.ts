import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import type { Schedule } from "../../src/playback/schedule.ts";
import { concertLines } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { timeOnClock } from "./audio-clock.ts";
import { BlendGraph } from "./blend-graph.ts";
import { SampleShelf } from "./sample-bank.ts";
import { LIMITER_DELAY, limiterTo, soundContextOf } from "./sound-context.ts";

/** What is rendered, and how. */
export interface ChunkOptions {
  readonly sampleRate: number;
  readonly channels: 1 | 2;
  readonly blend?: Blend;
  /** Whether the limiter stands at the end (yes). Its delay is taken out again. */
  readonly limited?: boolean;
  /** Whether players are heard as recorded (yes). */
  readonly recorded?: boolean;
  /** How long a piece is, in seconds (15): this much is held in memory at once, whatever the length of the whole. */
  readonly pieceSeconds?: number;
  /** Rendering stops between two pieces. */
  readonly signal?: AbortSignal;
}

/** One piece of a rendering, and how much is done. */
export interface RenderedPiece {
  /** One list for each channel. */
  readonly samples: readonly Float32Array[];
  /** From 0 to 1. */
  readonly done: number;
}

const PIECE_SECONDS = 15;

/** Each piece begins this much earlier, in seconds, and that is thrown away: the limiter and the room have found their feet by then. */
const RUN_UP = 1.5;

/** Pieces overlap by so much, in seconds, and are faded into one another. Both are the same there to a thousandth; what is left is not heard. */
const OVERLAP = 0.01;

/** How many samples of each channel the whole rendering of a schedule has, dying away included. */
export function renderedFrames(schedule: Schedule, sampleRate: number): number {
  return Math.ceil((schedule.end + DIES_AWAY) * sampleRate);
}

const DIES_AWAY = 1.5;

/**
 * Renders a whole schedule a piece at a time, so that memory does not grow with its length, progress can be shown, and it can be stopped.
 *
 * ```
 *   piece 1 ├─────────────────┤
 *   piece 2        ┆run-up┆   ├─────────────────┤       oscillators begin where they had turned to
 * ```
 * @throws AbortError (as `signal` gives it) when it is stopped
 */
export async function* renderedPieces(schedule: Schedule, score: Score, options: ChunkOptions): AsyncGenerator<RenderedPiece> {
  const { sampleRate, pieceSeconds = PIECE_SECONDS, signal } = options;
  const frames = renderedFrames(schedule, sampleRate);
  const overlap = Math.round(OVERLAP * sampleRate);
  const length = Math.max(overlap * 2, Math.round(pieceSeconds * sampleRate));
  let tail: readonly Float32Array[] = [];
  for (let from = 0; from < frames; from += length) {
    signal?.throwIfAborted();
    const wanted = Math.min(length, frames - from);
    const rendered = await renderedPiece(schedule, score, options, from, wanted + overlap);
    const samples = rendered.map((channel, index) => joined(tail[index], channel).subarray(0, wanted));
    tail = rendered.map((channel) => channel.slice(wanted));
    yield { samples, done: Math.min(1, (from + wanted) / frames) };
  }
}

/** Samples `from` to `from + count` of the whole. */
async function renderedPiece(
  schedule: Schedule,
  score: Score,
  { sampleRate, channels, blend = USUAL_BLEND, limited = true, recorded = true }: ChunkOptions,
  from: number,
  count: number,
): Promise<readonly Float32Array[]> {
  const delay = limited ? Math.round(LIMITER_DELAY * sampleRate) : 0;
  const runUp = Math.min(from, Math.round(RUN_UP * sampleRate));
  const first = from - runUp;
  const native = new OfflineAudioContext(channels, runUp + count + delay, sampleRate);
  const context = soundContextOf(native);
  const shelf = new SampleShelf(native);
  if (recorded) await shelf.load(concertLines(score).map(({ player }) => player));
  const graph = new BlendGraph(context, limited ? limiterTo(context, native.destination) : native.destination, score, blend, shelf.setFor);
  graph.follow(schedule, score, first / sampleRate, timeOnClock(-first / sampleRate, sampleRate));
  writeOnTheWay(graph, native);
  const buffer = await native.startRendering();
  return Array.from({ length: channels }, (_, channel) => buffer.getChannelData(channel).subarray(runUp + delay));
}

/** Notes are written so many seconds ahead, once in so many: one that waits for its turn costs as much as one that sounds. */
const WRITES_EVERY = 0.5;

/** Writes a piece while it is rendered, where the browser can hold rendering up for that; elsewhere all at once. */
function writeOnTheWay(graph: BlendGraph, native: OfflineAudioContext): void {
  const seconds = native.length / native.sampleRate;
  const canWait = typeof native.suspend === "function";
  graph.writeUntil(canWait ? 2 * WRITES_EVERY : seconds);
  for (let at = WRITES_EVERY; canWait && at < seconds; at += WRITES_EVERY) {
    void native.suspend(at).then(() => {
      graph.writeUntil(at + 2 * WRITES_EVERY);
      return native.resume();
    });
  }
}

/** The beginning of a piece faded in over what the piece before rendered past its end. */
function joined(tail: Float32Array | undefined, samples: Float32Array): Float32Array {
  if (tail === undefined) return samples;
  const own = samples.slice();
  tail.forEach((before, index) => {
    const share = (index + 1) / (tail.length + 1);
    own[index] = share * (own[index] as number) + (1 - share) * before;
  });
  return own;
}
