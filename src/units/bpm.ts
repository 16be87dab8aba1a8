import type { Unit } from "./unit.ts";

/** Beats in a minute. Which note value is the beat stands beside it. */
export type Bpm = Unit<"beats per minute">;

/**
 * Marks a number as beats per minute.
 * @throws RangeError when it is not a finite number above zero.
 */
export function bpm(value: number): Bpm {
  if (!(value > 0) || !Number.isFinite(value)) {
    throw new RangeError(`A tempo is a finite number of beats per minute above zero, not ${value}.`);
  }
  return value as Bpm;
}
