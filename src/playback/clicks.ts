import type { Frame } from "../score/frame.ts";
import { beatsOf, meterOffset, meterTicks } from "../score/meter.ts";
import type { Seconds } from "../units/seconds.ts";
import { secondIn, secondsPerTickOf, type Timeline } from "./timeline.ts";

/** One click. */
export interface Click {
  readonly at: Seconds;
  /** Whether it is the first beat of a bar. */
  readonly downbeat: boolean;
  /** Whether it belongs to the count before the music begins. */
  readonly countIn: boolean;
}

/** A click on every beat that is played; a pickup has the last beats of its bar, and so no downbeat. */
export function clicksOf(timeline: Timeline, frames: readonly Frame[]): readonly Click[] {
  return timeline.bars.flatMap((played) => {
    const frame = frames[played.bar] as Frame;
    const offset = meterOffset(frame);
    return beatStarts(frame)
      .map((beat) => beat - offset)
      .filter((at) => at >= played.from && at < played.to)
      .map((at) => ({ at: secondIn(played, at), downbeat: at + offset === 0, countIn: false }));
  });
}

/**
 * The beats counted before the music: a whole bar, and where it begins in the middle of a bar (or with a pickup) that bar's beats up to there.
 * Times end with 0, where the music begins, so they are negative.
 */
export function countInClicks(timeline: Timeline, frames: readonly Frame[], tempoPercent: number): readonly Click[] {
  const first = timeline.bars[0];
  const frame = first === undefined ? undefined : frames[first.bar];
  if (first === undefined || frame === undefined) return [];
  const intoBar = meterOffset(frame) + first.from;
  const each = secondsPerTickOf(frame, tempoPercent);
  return [-meterTicks(frame.meter), 0]
    .flatMap((bar) => beatStarts(frame).map((beat) => ({ time: bar + beat - intoBar, downbeat: beat === 0 })))
    .filter(({ time }) => time < 0)
    .map(({ time, downbeat }) => ({ at: (time * each) as Seconds, downbeat, countIn: true }));
}

function beatStarts({ meter }: Frame): readonly number[] {
  let at = 0;
  return beatsOf(meter).map((length) => {
    const start = at;
    at += length;
    return start;
  });
}
