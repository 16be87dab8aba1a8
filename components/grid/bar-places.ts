import type { Moment } from "../../src/score/address.ts";
import { barAtTime, barStarts } from "../../src/score/bar-starts.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import type { Ticks } from "../../src/units/ticks.ts";

const kept = new WeakMap<readonly number[], readonly number[]>();

/** Where each bar begins, px from the start of the score, given how wide each is; one entry more than bars, the end. */
export function barPlaces(widths: readonly number[]): readonly number[] {
  const known = kept.get(widths);
  if (known !== undefined) return known;
  let x = 0;
  const places = [0, ...widths.map((width) => (x += width))];
  kept.set(widths, places);
  return places;
}

/** How wide the whole score is. */
export function totalWidth(widths: readonly number[]): number {
  return barPlaces(widths)[widths.length] ?? 0;
}

/** The bar at a place; the first or the last for anything outside. */
export function barAtPlace(widths: readonly number[], x: number): number {
  const places = barPlaces(widths);
  let low = 0;
  let high = Math.max(0, widths.length - 1);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((places[middle] as number) <= x) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The bars seen, in whole or in part, between two places. */
export function barsBetween(widths: readonly number[], from: number, to: number): BarRange {
  return { first: barAtPlace(widths, from), last: barAtPlace(widths, Math.max(from, to - 1)) };
}

/** Where a moment stands. Time runs evenly inside a bar. */
export function placeOfMoment(frames: readonly Frame[], widths: readonly number[], { bar, at }: Moment): number {
  const frame = frames[bar];
  if (frame === undefined) return totalWidth(widths);
  return (barPlaces(widths)[bar] ?? 0) + (at / frameTicks(frame)) * (widths[bar] ?? 0);
}

/** Where a time from the start of the score stands. */
export function placeOfTime(frames: readonly Frame[], widths: readonly number[], time: number): number {
  if (time >= (barStarts(frames)[frames.length] ?? 0)) return totalWidth(widths);
  const bar = barAtTime(frames, time);
  return placeOfMoment(frames, widths, { bar, at: (time - (barStarts(frames)[bar] ?? 0)) as Ticks });
}

/** The time at a place, in ticks from the start of the score, not rounded to any step. */
export function timeAtPlace(frames: readonly Frame[], widths: readonly number[], x: number): number {
  const bar = barAtPlace(widths, x);
  const frame = frames[bar];
  if (frame === undefined) return 0;
  const share = (x - (barPlaces(widths)[bar] ?? 0)) / (widths[bar] ?? 1);
  return (barStarts(frames)[bar] ?? 0) + Math.min(1, Math.max(0, share)) * frameTicks(frame);
}
