import { type Hertz, hertz } from "./hertz.ts";
import type { Unit } from "./unit.ts";

/** Interval size in cents; 1200 to the octave. May be negative (downwards). */
export type Cents = Unit<"cents">;

/**
 * Marks a number as cents.
 * @throws RangeError when it is not finite.
 */
export function cents(value: number): Cents {
  if (!Number.isFinite(value)) throw new RangeError(`Cents are a finite number, not ${value}.`);
  return value as Cents;
}

/** Cents from one frequency up to another; negative when the second is lower. */
export function centsBetween(from: Hertz, to: Hertz): Cents {
  return cents(1200 * Math.log2(to / from));
}

/** The frequency that lies so many cents above (or, if negative, below) another. */
export function shiftedByCents(from: Hertz, by: Cents): Hertz {
  return hertz(from * 2 ** (by / 1200));
}

/** The size in cents of a frequency ratio, such as 3/2. */
export function centsOfRatio(ratio: number): Cents {
  return cents(1200 * Math.log2(ratio));
}
