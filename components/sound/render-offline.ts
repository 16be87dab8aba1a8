import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import type { Schedule } from "../../src/playback/schedule.ts";
import { concertLines } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { timeOnClock } from "./audio-clock.ts";
import { BlendGraph } from "./blend-graph.ts";
import { SampleShelf } from "./sample-bank.ts";
import { limiterTo, soundContextOf } from "./sound-context.ts";

/** How a schedule is rendered. */
export interface RenderOptions {
  /** Samples in a second. */
  readonly sampleRate: number;
  /** How long, from the schedule's beginning. */
  readonly seconds: number;
  readonly blend?: Blend;
  /** Whether the limiter stands at the end, as it does when playing (yes). It delays everything by 6 ms. */
  readonly limited?: boolean;
  /** Whether players are heard as recorded (no: by their synthetic voices, whose pitch and onset are exact). */
  readonly recorded?: boolean;
}

/** Renders the beginning of a schedule by the graph that plays it; one channel. All of it is held in memory, so keep it short. */
export async function renderOffline(
  schedule: Schedule,
  score: Score,
  { sampleRate, seconds, blend = USUAL_BLEND, limited = true, recorded = false }: RenderOptions,
): Promise<Float32Array<ArrayBuffer>> {
  const native = new OfflineAudioContext(1, Math.round(seconds * sampleRate), sampleRate);
  const context = soundContextOf(native);
  const shelf = new SampleShelf(native);
  if (recorded) await shelf.load(concertLines(score).map(({ player }) => player));
  const output = limited ? limiterTo(context, native.destination) : native.destination;
  const graph = new BlendGraph(context, output, score, blend, shelf.setFor);
  graph.follow(schedule, score, 0, timeOnClock(0, sampleRate));
  graph.writeUntil(seconds);
  const rendered = await native.startRendering();
  return rendered.getChannelData(0);
}
