declare const concertPitchMark: unique symbol;

/**
 * A concert pitch as it is spelled: letter, accidentals (`#`, `##`, `b`, `bb`), octave: `Bb4`, `C#5`. A4 is the band's A.
 * A string at run time, so that two equal spellings are equal by `===` and a saved sketch can be read by eye.
 * It is not a frequency: that needs the band's A.
 */
export type ConcertPitch = string & { readonly [concertPitchMark]: true };

/** A letter of the staff. */
export type Letter = "C" | "D" | "E" | "F" | "G" | "A" | "B";

/** The pieces of a spelling. */
export interface Spelling {
  readonly letter: Letter;
  /** Semitones up (sharps, positive) or down (flats, negative); -2 to 2. */
  readonly alter: number;
  /** Octave number; C4 is middle C, and B3 lies just under it. */
  readonly octave: number;
}
