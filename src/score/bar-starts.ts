import type { Ticks } from "../units/ticks.ts";
import type { Moment } from "./address.ts";
import type { Frame } from "./frame.ts";
import { frameTicks } from "./meter.ts";

const starts = new WeakMap<readonly Frame[], readonly Ticks[]>();

/** Where each bar begins, counted from the start of the score as written (repeats not taken); one entry more than bars, the end. */
export function barStarts(frames: readonly Frame[]): readonly Ticks[] {
  const kept = starts.get(frames);
  if (kept !== undefined) return kept;
  let at = 0;
  const made = [0, ...frames.map((frame) => (at += frameTicks(frame)))] as unknown as readonly Ticks[];
  starts.set(frames, made);
  return made;
}

/** The bar that a time from the start of the score falls in; the last bar for the end and anything after it. */
export function barAtTime(frames: readonly Frame[], time: number): number {
  const edges = barStarts(frames);
  let low = 0;
  let high = frames.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((edges[middle] as number) <= time) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** A moment as time from the start of the score. */
export function timeOf(frames: readonly Frame[], moment: Moment): Ticks {
  return ((barStarts(frames)[moment.bar] ?? 0) + moment.at) as Ticks;
}

/** A time from the start of the score as a moment. */
export function momentAt(frames: readonly Frame[], time: number): Moment {
  const bar = barAtTime(frames, time);
  return { bar, at: (time - (barStarts(frames)[bar] ?? 0)) as Ticks };
}

/** How long the score is as written. */
export function scoreTicks(frames: readonly Frame[]): Ticks {
  return barStarts(frames)[frames.length] ?? (0 as Ticks);
}
