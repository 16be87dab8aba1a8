import type { Letter } from "./concert-pitch.ts";

/** The letters in the order of the staff, from C, where an octave's number begins. */
export const LETTERS: readonly Letter[] = ["C", "D", "E", "F", "G", "A", "B"];

/** Semitones of each natural letter above C. */
export const LETTER_SEMITONES: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Place of each natural letter on the line of fifths; C is 0, a fifth up adds 1, a sharp adds 7. */
export const LETTER_FIFTHS: Readonly<Record<Letter, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };

/** Staff steps of a letter above C: 0 to 6. */
export function letterIndex(letter: Letter): number {
  return LETTERS.indexOf(letter);
}

/** The letter so many staff steps above C; any whole number, wrapping at the octave. */
export function letterAt(steps: number): Letter {
  return LETTERS[positiveModulo(steps, 7)] as Letter;
}

/** The remainder that is never negative: -1 modulo 7 is 6. */
export function positiveModulo(value: number, by: number): number {
  return ((value % by) + by) % by;
}
