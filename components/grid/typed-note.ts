import { CHANTER_NOTES, type ChanterNote } from "../../src/pipes/chanter-note.ts";

/** The chanter notes of each letter, lowest first. */
const BY_LETTER = {
  A: ["low-a", "high-a"],
  B: ["b"],
  C: ["c"],
  D: ["d"],
  E: ["e"],
  F: ["f"],
  G: ["low-g", "high-g"],
} as const satisfies Record<string, readonly ChanterNote[]>;

/** The cross-fingered note of a letter; null where there is none. */
const CROSS_FINGERED: Readonly<Record<string, ChanterNote>> = { C: "c-natural", F: "f-natural", G: "high-g-sharp" };

/**
 * The note a letter means after another note: of two As or Gs the nearer one, by steps of the scale; the lower where both are as near.
 * Null where a cross-fingered note is meant and the letter has none.
 */
export function typedNote(letter: keyof typeof BY_LETTER, after: ChanterNote, crossFingered: boolean): ChanterNote | null {
  if (crossFingered) return CROSS_FINGERED[letter] ?? null;
  const away = (note: ChanterNote): number => Math.abs(CHANTER_NOTES.indexOf(note) - CHANTER_NOTES.indexOf(after));
  return BY_LETTER[letter].reduce<ChanterNote>((best, note) => (away(note) < away(best) ? note : best), BY_LETTER[letter][0]);
}
