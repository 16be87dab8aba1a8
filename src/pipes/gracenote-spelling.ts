import { done, type Outcome, refused } from "../units/outcome.ts";
import type { PlainNote } from "./chanter-note.ts";

/** A name of two words, or one letter. */
const WORD = /(low|high)\s*([ga])|(thumb)|([a-g])/giy;

/** What may stand between: spaces, commas, dots, braces and hyphens. */
const BETWEEN = /[\s,.;{}·–-]*/y;

/** Letters that mean one note whether they are large or small: the chanter has one of each. */
const ONLY_ONE: Readonly<Record<string, PlainNote>> = { b: "b", c: "c", d: "d", e: "e", f: "f" };

/** Letters that mean two: large for the low one, small for the high one, as in the ABC standard. */
const TWO: Readonly<Record<string, PlainNote>> = { G: "low-g", A: "low-a", g: "high-g", a: "high-a" };

/**
 * Reads gracenotes as a hand types them: letters, `{Gdc}` or `g c d`, or names, `low G, D, C`; mixed as well. G and A are the low ones when
 * large and the high ones when small; `thumb` is high A. Refused with a sentence that says what could not be read. An empty text is none.
 */
export function gracenotesFromSpelling(text: string): Outcome<readonly PlainNote[]> {
  const notes: PlainNote[] = [];
  let at = passed(text, 0);
  while (at < text.length) {
    WORD.lastIndex = at;
    const found = WORD.exec(text);
    const note = found === null ? null : noteOf(found);
    if (note === null) return refused(unreadable(text.slice(at)));
    notes.push(note);
    at = passed(text, WORD.lastIndex);
  }
  return done(notes);
}

function passed(text: string, from: number): number {
  BETWEEN.lastIndex = from;
  BETWEEN.exec(text);
  return BETWEEN.lastIndex;
}

function noteOf([, height, letter, thumb, alone]: RegExpExecArray): PlainNote | null {
  if (thumb !== undefined) return "high-a";
  if (height !== undefined) return `${height.toLowerCase()}-${letter?.toLowerCase()}` as PlainNote;
  return alone === undefined ? null : (TWO[alone] ?? ONLY_ONE[alone.toLowerCase()] ?? null);
}

function unreadable(rest: string): string {
  const [sign = ""] = rest;
  return `“${sign}” is no gracenote. Write letters, G A B c d e f g a from low G to high A, or names: low G, D, C.`;
}
