import { done, type Outcome, refused } from "../units/outcome.ts";
import { NINE_NOTES, type PlainNote } from "./chanter-note.ts";

/** The letter of each of the nine. *Source:* ABC standard 2.1, 4.1 and 4.12: capitals up to B, small letters from the C above it. */
const LETTERS: Readonly<Record<PlainNote, string>> = {
  "low-g": "G",
  "low-a": "A",
  b: "B",
  c: "c",
  d: "d",
  e: "e",
  f: "f",
  "high-g": "g",
  "high-a": "a",
};

/** Gracenotes as they are written in letters, `{gBd}`; nothing at all when there are none. */
export function lettersOfGracenotes(gracenotes: readonly PlainNote[]): string {
  return gracenotes.length === 0 ? "" : `{${gracenotes.map((note) => LETTERS[note]).join("")}}`;
}

/** Reads gracenotes spelled in letters, with or without braces; spaces are passed over. Refused with a sentence when a letter is none of the nine. */
export function gracenotesFromLetters(text: string): Outcome<readonly PlainNote[]> {
  const letters = [...text.replace(/^\s*\{|\}\s*$|\s/g, "")];
  const notes: PlainNote[] = [];
  for (const letter of letters) {
    const note = NINE_NOTES.find((candidate) => LETTERS[candidate] === letter);
    if (note === undefined) return refused(`${letter} is no gracenote. They are G A B c d e f g a, low G to high A.`);
    notes.push(note);
  }
  return done(notes);
}
