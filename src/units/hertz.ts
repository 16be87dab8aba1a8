import type { Unit } from "./unit.ts";

/** Frequency in hertz, above zero. */
export type Hertz = Unit<"hertz">;

/**
 * Marks a number as hertz.
 * @throws RangeError when it is not a finite number above zero.
 */
export function hertz(value: number): Hertz {
  if (!(value > 0) || !Number.isFinite(value)) {
    throw new RangeError(`A frequency is a finite number of hertz above zero, not ${value}.`);
  }
  return value as Hertz;
}
