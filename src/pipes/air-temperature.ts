import { type Cents, cents } from "../units/cents.ts";

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
