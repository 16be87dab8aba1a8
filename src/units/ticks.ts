import type { Unit } from "./unit.ts";

/** Written time in ticks, a whole number; 960 to the quarter note. */
export type Ticks = Unit<"ticks">;

/** Ticks in a quarter note. Divides by 3 and by 32, so triplets and 32nds are whole numbers. */
export const TICKS_PER_QUARTER = 960 as Ticks;

/**
 * Marks a number as ticks.
 * @throws RangeError when it is not a whole number of zero or more.
 */
export function ticks(value: number): Ticks {
  if (!Number.isInteger(value) || value < 0) {
    throw new RangeError(`Ticks are a whole number of zero or more, not ${value}.`);
  }
  return value as Ticks;
}
