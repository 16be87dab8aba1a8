import { type Cents, cents } from "../units/cents.ts";
import { type Hertz, hertz } from "../units/hertz.ts";
import { shownNumber } from "../units/shown.ts";
import type { ConcertPitch } from "./concert-pitch.ts";
import { A4_SEMITONE, semitoneOf } from "./semitone.ts";

/** The band's A4 where nothing else is said. *Source:* ISO 16. */
export const USUAL_BAND_A: Hertz = hertz(440);

/** The lowest A4 a band may be given: a little under the lowest historical pitches in use. */
export const LOWEST_BAND_A: Hertz = hertz(380);

/** The highest A4 a band may be given. */
export const HIGHEST_BAND_A: Hertz = hertz(480);

/** Whether a number of hertz can be a band's A4. */
export function isBandA(value: number): boolean {
  return value >= LOWEST_BAND_A && value <= HIGHEST_BAND_A;
}

/** A band's A4 as it stands in a sentence: `A 453.1`, with a space that does not break; at most `places` decimals (1). */
export function shownBandA(bandA: Hertz, places = 1): string {
  return `A\u00a0${shownNumber(bandA, places)}`;
}

/** The frequency of a pitch in equal temperament for a band whose A4 is `bandA`. */
export function equalHertz(pitch: ConcertPitch, bandA: Hertz): Hertz {
  return hertz(bandA * 2 ** ((semitoneOf(pitch) - A4_SEMITONE) / 12));
}

/** The A4 at which a band, in equal temperament, has this pitch at this frequency. */
export function bandAForPitch(pitch: ConcertPitch, sounding: Hertz): Hertz {
  return hertz(sounding / 2 ** ((semitoneOf(pitch) - A4_SEMITONE) / 12));
}

/** Where a frequency lies against a band's equal temperament: the nearest semitone (MIDI numbering) and the cents above it, -50 to 50. */
export function nearestSemitone(sounding: Hertz, bandA: Hertz): { readonly semitone: number; readonly cents: Cents } {
  const exact = A4_SEMITONE + 12 * Math.log2(sounding / bandA);
  const semitone = Math.round(exact);
  return { semitone, cents: cents(100 * (exact - semitone)) };
}
