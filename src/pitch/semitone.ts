import type { ConcertPitch, Spelling } from "./concert-pitch.ts";
import { LETTER_SEMITONES } from "./letter.ts";
import { spellingOf } from "./spelling.ts";

/** The number of A4. */
export const A4_SEMITONE = 69;

/** A pitch as a whole number of semitones, counted as MIDI does: C4 is 60, A4 is 69. Spelling is lost. */
export function semitoneOf(pitch: ConcertPitch): number {
  return semitoneOfSpelling(spellingOf(pitch));
}

/** The same for a pitch already taken apart. */
export function semitoneOfSpelling({ letter, alter, octave }: Spelling): number {
  return (octave + 1) * 12 + LETTER_SEMITONES[letter] + alter;
}
