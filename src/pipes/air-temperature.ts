import { type Cents, cents, shiftedByCents } from "../units/cents.ts";
import type { Hertz } from "../units/hertz.ts";
import { shownNumber } from "../units/shown.ts";

/** Kelvin at 0 degrees Celsius. */
const FREEZING = 273.15;

/**
 * How far an air column rises in pitch when the air in it warms from one temperature to another, both in degrees Celsius; negative when it
 * cools. About 3 cents a degree near 20. Reeds are left out. *Source:* derived from the speed of sound, which grows with the square root of
 * the absolute temperature.
 * @throws RangeError for a temperature at or under absolute zero.
 */
export function airDrift(from: number, to: number): Cents {
  if (!(from > -FREEZING && to > -FREEZING)) throw new RangeError(`No air is at ${Math.min(from, to)} degrees.`);
  return cents(600 * Math.log2((to + FREEZING) / (from + FREEZING)));
}

/** What a degree of warmth does to a low A, in a sentence; near 20 degrees Celsius. */
export function warmthSentence(lowA: Hertz): string {
  const drift = airDrift(20, 21);
  const rise = shownNumber(shiftedByCents(lowA, drift) - lowA, 1);
  return `Each degree of warmth raises the air in a pipe about ${shownNumber(drift, 0)} cents, ${rise} Hz here; reeds are another matter.`;
}
