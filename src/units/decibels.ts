import type { Unit } from "./unit.ts";

/** A level in decibels relative to full scale or to another level; 0 leaves it as it is, negative is quieter. */
export type Decibels = Unit<"decibels">;

/**
 * Marks a number as decibels.
 * @throws RangeError when it is not finite; silence is said otherwise (a mute), not as minus infinity.
 */
export function decibels(value: number): Decibels {
  if (!Number.isFinite(value)) throw new RangeError(`Decibels are a finite number, not ${value}.`);
  return value as Decibels;
}

/** The factor on the amplitude: 1 at 0 dB, about 0.5 at -6 dB. */
export function amplitudeOf(level: Decibels): number {
  return 10 ** (level / 20);
}

/**
 * The level of an amplitude against 1.
 * @throws RangeError when it is not above zero.
 */
export function decibelsOf(amplitude: number): Decibels {
  return decibels(20 * Math.log10(amplitude));
}
