import type { ConcertPitch, Spelling } from "./concert-pitch.ts";
import { LETTER_SEMITONES, letterAt, letterIndex } from "./letter.ts";
import { semitoneOfSpelling } from "./semitone.ts";
import { pitchFromSpelling, spellingOf } from "./spelling.ts";

/** An interval as music spells it. Both numbers may be negative (downwards). */
export interface Transposition {
  /** Staff steps: 1 for any kind of second, 7 for an octave. */
  readonly diatonic: number;
  /** Semitones. */
  readonly chromatic: number;
}

/** No interval at all. */
export const UNISON: Transposition = { diatonic: 0, chromatic: 0 };

/** A pitch moved by staff steps and semitones, so that a scale keeps one letter for each step. See `transposedSpelling`. */
export function transposed(pitch: ConcertPitch, diatonicSteps: number, semitones: number): ConcertPitch {
  if (diatonicSteps === 0 && semitones === 0) return pitch;
  return pitchFromSpelling(transposedSpelling(spellingOf(pitch), diatonicSteps, semitones));
}

/**
 * A spelling moved by staff steps and semitones. Where that would need three accidentals or more, the next letter is taken instead:
 * the pitch is right and can be read.
 */
export function transposedSpelling(from: Spelling, diatonicSteps: number, semitones: number): Spelling {
  const target = semitoneOfSpelling(from) + semitones;
  const step = from.octave * 7 + letterIndex(from.letter) + diatonicSteps;
  let spelling = spelledOnStep(step, target);
  while (Math.abs(spelling.alter) > 2) spelling = spelledOnStep(stepOf(spelling) + Math.sign(spelling.alter), target);
  return spelling;
}

/** The interval from one pitch up (or down) to another. */
export function intervalBetween(from: ConcertPitch, to: ConcertPitch): Transposition {
  const [low, high] = [spellingOf(from), spellingOf(to)];
  return { diatonic: stepOf(high) - stepOf(low), chromatic: semitoneOfSpelling(high) - semitoneOfSpelling(low) };
}

/** The same interval in the other direction. */
export function inverted({ diatonic, chromatic }: Transposition): Transposition {
  return { diatonic: -diatonic + 0, chromatic: -chromatic + 0 };
}

/** Staff steps above C0, whatever the accidentals: what decides where a note stands on the staff. */
export function stepOf({ letter, octave }: Spelling): number {
  return octave * 7 + letterIndex(letter);
}

/** The pitch with this semitone number, on this staff step above C0; `alter` may be beyond a double accidental. */
function spelledOnStep(step: number, semitone: number): Spelling {
  const letter = letterAt(step);
  const octave = Math.floor(step / 7);
  return { letter, octave, alter: semitone - ((octave + 1) * 12 + LETTER_SEMITONES[letter]) };
}
