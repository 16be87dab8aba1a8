import type { Cents } from "./cents.ts";
import type { Hertz } from "./hertz.ts";

/** Minus as it is printed; the hyphen of the keyboard is too short beside figures. */
const MINUS = "\u2212";

/** Hertz as they stand in a sentence: at most `places` decimals (1), and none where they would be zeros: `480 Hz`, `493.9 Hz`. */
export function shownHertz(frequency: Hertz, places = 1): string {
  return `${shownNumber(frequency, places)} Hz`;
}

/** Cents with their sign and no unit: `+7`, `−21`, `0`; rounded to `places` decimals (0). */
export function shownCents(interval: Cents, places = 0): string {
  const digits = shownNumber(Math.abs(interval), places);
  if (digits === "0") return digits;
  return (interval < 0 ? MINUS : "+") + digits;
}

/** A number rounded to `places` decimals, without trailing zeros, with a printed minus. */
export function shownNumber(value: number, places: number): string {
  return String(rounded(value, places)).replace("-", MINUS);
}

/** A number rounded to `places` decimals; never minus zero. */
export function rounded(value: number, places: number): number {
  const scale = 10 ** places;
  return Math.round(value * scale) / scale + 0;
}
