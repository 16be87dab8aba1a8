import type { PlainNote } from "./chanter-note.ts";
import { noteName } from "./note-names.ts";

/** Gracenotes that are known by the finger that lifts, and what a piper calls them. The others are called as their notes are. */
const BY_FINGER: Partial<Readonly<Record<PlainNote, string>>> = {
  d: "D gracenote",
  e: "E gracenote",
  f: "F gracenote",
  "high-g": "G gracenote",
  "high-a": "thumb gracenote",
};

/** A gracenote with its article, as it stands in a sentence: `a G gracenote`, `an E gracenote`, `a thumb gracenote`, `a low A`. */
export function gracenoteInWords(gracenote: PlainNote): string {
  const name = bare(gracenote);
  return `${gracenote === "e" || gracenote === "f" ? "an" : "a"} ${name}`;
}

/** The same when it was spoken of before: `the G gracenote`, `the low A`. */
export function theGracenote(gracenote: PlainNote): string {
  return `the ${bare(gracenote)}`;
}

/** A gracenote that is struck, called as its note is: `a low G`, `an E`; a G struck on high A is `a G`. */
export function strikeInWords(strike: PlainNote): string {
  if (strike === "high-g") return "a G";
  return `${strike === "e" || strike === "f" ? "an" : "a"} ${noteName(strike)}`;
}

/** A sentence's first letter made large. */
export function asSentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

function bare(gracenote: PlainNote): string {
  return BY_FINGER[gracenote] ?? noteName(gracenote);
}
