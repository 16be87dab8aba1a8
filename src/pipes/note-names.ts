import type { Letter } from "../pitch/concert-pitch.ts";
import type { ChanterNote } from "./chanter-note.ts";
import { writtenSpellingOf } from "./written-pitch.ts";

/** Every chanter note as a piper says it: C and F are understood sharp, so only the naturals and high G sharp name an accidental. */
const SPOKEN: Readonly<Record<ChanterNote, string>> = {
  "low-g": "low G",
  "low-a": "low A",
  b: "B",
  "c-natural": "C natural",
  c: "C",
  d: "D",
  e: "E",
  "f-natural": "F natural",
  f: "F",
  "high-g": "high G",
  "high-g-sharp": "high G sharp",
  "high-a": "high A",
};

/** A chanter note for the eye, as it stands inside a sentence: `low A`, `C natural`, `high G♯`. */
export function noteName(note: ChanterNote): string {
  return SPOKEN[note].replace(" sharp", "♯");
}

/** A chanter note for the ear of a screen reader: `high G sharp`. */
export function spokenNote(note: ChanterNote): string {
  return SPOKEN[note];
}

/** The letter a note is written with: `G` for low G, high G and high G sharp. */
export function letterOf(note: ChanterNote): Letter {
  return writtenSpellingOf(note).letter;
}
