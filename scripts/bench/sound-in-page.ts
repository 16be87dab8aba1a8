import { renderedPieces } from "../../components/sound/render-chunks.ts";
import type { PlayerId } from "../../src/ensemble/player.ts";
import { USUAL_BLEND } from "../../src/playback/blend.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import type { ConcertLine, Score } from "../../src/score/score.ts";
import { benchScore } from "./bench-score.ts";

const RATE = 48_000;

/** A fiddle who doubles the pipes is there already. */
const OTHERS: readonly PlayerId[] = ["flute", "trumpet-bb", "accordion", "cello"];

/** What has been rendered so far. */
export interface Rendered {
  /** How long it plays and how long rendering took. */
  readonly seconds: number;
  readonly took: number;
  readonly isOver: boolean;
}

/** Begins to render at least so many minutes; each call renders another piece and keeps nothing of it, as where a file on the device is written. */
export function begun(minutes: number): () => Promise<Rendered> {
  const score = bandScore(minutes);
  const pieces = renderedPieces(scheduleOf(score), score, { sampleRate: RATE, channels: 2, blend: USUAL_BLEND });
  let [seconds, took] = [0, 0];
  return async () => {
    const started = performance.now();
    const { value, done } = await pieces.next();
    took += (performance.now() - started) / 1000;
    seconds += (value?.samples[0]?.length ?? 0) / RATE;
    return { seconds, took, isOver: done === true };
  };
}

// Whoever drives the page finds it there.
Object.assign(globalThis, { begun });

function bandScore(minutes: number): Score {
  const secondsPerBar = scheduleOf(benchScore(2)).timeline.bars[1]?.start ?? 0;
  const one = benchScore(1);
  const lead = scheduleOf(one).timeline.start;
  const score = benchScore(Math.ceil((minutes * 60) / (secondsPerBar - lead)));
  const [pipes, fiddle] = score.lines;
  if (pipes === undefined || fiddle?.kind !== "concert") throw new RangeError("pipes and a fiddle");
  const others = OTHERS.map((player): ConcertLine => ({ ...fiddle, id: player, name: player, player }));
  return { ...score, lines: [pipes, fiddle, ...others] };
}
