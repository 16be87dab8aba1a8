import { TICKS_PER_QUARTER, type Ticks, ticks } from "../units/ticks.ts";
import type { Frame, Meter } from "./frame.ts";

/** The length of one of the meter's lower figure: a quarter in 3/4, an eighth in 6/8. */
export function unitTicks(meter: Meter): Ticks {
  return ticks((TICKS_PER_QUARTER * 4) / meter.unit);
}

/** The length of a whole bar of the meter. */
export function meterTicks(meter: Meter): Ticks {
  return ticks(meter.beats * unitTicks(meter));
}

/** The length of a bar: what the meter says, or less where the frame is short. */
export function frameTicks(frame: Frame): Ticks {
  return frame.short ?? meterTicks(frame.meter);
}

/** Whether the bar is shorter than its meter says: a pickup, or the bar that makes up for one. */
export function isShort(frame: Frame): boolean {
  return frame.short !== null && frame.short < meterTicks(frame.meter);
}

/**
 * Where in a whole bar of its meter a frame begins. A short bar of at most half a bar is an upbeat, which leans on the bar after it
 * and so ends where a bar ends; a longer one is a bar cut short, which begins where a bar begins.
 */
export function meterOffset(frame: Frame): Ticks {
  const whole = meterTicks(frame.meter);
  const length = frameTicks(frame);
  return ticks(length * 2 <= whole ? whole - length : 0);
}

/** Whether the beat is a dotted value and divides in three: 6/8, 9/8, 12/8, 6/4, 12/16, and 3/8 and 3/16 counted in one. */
export function isCompound({ beats, unit }: { readonly beats: number; readonly unit: number }): boolean {
  return beats % 3 === 0 && (beats > 3 || unit >= 8);
}

/**
 * The beats of a whole bar, first to last: what the foot taps and the click plays. 6/8 is two of 1440, 3/4 three of 960.
 * Eighths and sixteenths in uneven meters go in twos with a three to make up: 7/8 is 2+2+3, and 5/8 is 3+2 (common practice; a tune may differ).
 */
export function beatsOf(meter: Meter): readonly Ticks[] {
  const unit = unitTicks(meter);
  if (isCompound(meter)) return Array.from({ length: meter.beats / 3 }, () => ticks(unit * 3));
  if (meter.unit <= 4) return Array.from({ length: meter.beats }, () => unit);
  return countGroups(meter.beats).map((count) => ticks(unit * count));
}

/** The groups eighths and shorter notes are beamed in, first to last: the beats, but never more than a half, or a quarter in 6/4 and its like. */
export function beamGroupsOf(meter: Meter): readonly Ticks[] {
  if (meter.unit === 4) return Array.from({ length: meter.beats }, () => TICKS_PER_QUARTER);
  if (meter.unit === 2) return Array.from({ length: meter.beats }, () => unitTicks(meter));
  return beatsOf(meter);
}

/** An uneven count in twos and one three, in the order they are counted: 5 is 3+2, 7 is 2+2+3, 4 is 2+2. One stays one. */
export function countGroups(count: number): readonly number[] {
  if (count <= 1) return [count];
  if (count === 5) return [3, 2];
  const twos = Array.from({ length: Math.floor(count / 2) }, () => 2);
  if (count % 2 === 1) twos[twos.length - 1] = 3;
  return twos;
}
