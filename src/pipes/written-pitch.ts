import type { Spelling } from "../pitch/concert-pitch.ts";
import type { ChanterNote } from "./chanter-note.ts";

declare const writtenPitchMark: unique symbol;

/**
 * A pitch as it stands in the pipe part, where low A is always A4: `C#5`. Not a concert pitch: what it sounds depends on the setup.
 * A string at run time.
 */
export type WrittenPitch = string & { readonly [writtenPitchMark]: true };

/** Where every chanter note stands on the staff. *Source:* ABC standard 2.1, 3.1.14 (the nine); common practice (the cross-fingered ones). */
const SPELLINGS: Readonly<Record<ChanterNote, Spelling>> = {
  "low-g": { letter: "G", alter: 0, octave: 4 },
  "low-a": { letter: "A", alter: 0, octave: 4 },
  b: { letter: "B", alter: 0, octave: 4 },
  "c-natural": { letter: "C", alter: 0, octave: 5 },
  c: { letter: "C", alter: 1, octave: 5 },
  d: { letter: "D", alter: 0, octave: 5 },
  e: { letter: "E", alter: 0, octave: 5 },
  "f-natural": { letter: "F", alter: 0, octave: 5 },
  f: { letter: "F", alter: 1, octave: 5 },
  "high-g": { letter: "G", alter: 0, octave: 5 },
  "high-g-sharp": { letter: "G", alter: 1, octave: 5 },
  "high-a": { letter: "A", alter: 0, octave: 5 },
};

/** A chanter note as the pipe part writes it, accidentals in full: `c` is C#5. */
export function writtenPitchOf(note: ChanterNote): WrittenPitch {
  const { letter, alter, octave } = SPELLINGS[note];
  return `${letter}${alter === 1 ? "#" : ""}${octave}` as WrittenPitch;
}

/** The same taken apart. */
export function writtenSpellingOf(note: ChanterNote): Spelling {
  return SPELLINGS[note];
}
