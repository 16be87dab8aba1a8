import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { letterAt, positiveModulo } from "../pitch/letter.ts";
import { nearestSemitone, USUAL_BAND_A } from "../pitch/reference-pitch.ts";
import { pitchFromSpelling } from "../pitch/spelling.ts";
import type { Hertz } from "../units/hertz.ts";

/** How pipers call each semitone when it is their low A, from C: staff steps above C, and sharps (1) or flats (-1). */
const NAMES: readonly (readonly [step: number, alter: number])[] = [
  [0, 0],
  [1, -1],
  [1, 0],
  [2, -1],
  [2, 0],
  [3, 0],
  [4, -1],
  [4, 0],
  [5, -1],
  [5, 0],
  [6, -1],
  [6, 0],
];

/**
 * Up to here a bare low A is called B flat (and B from here on), though the border of equal temperament lies at 479.8 Hz, amid the
 * commonest solo pitches. *Source:* common practice.
 */
const B_FLAT_UP_TO = 487;

/** The semitone (MIDI numbering) as a low A is named: B flat, never A sharp. */
export function lowAName(semitone: number): ConcertPitch {
  const [step, alter] = NAMES[positiveModulo(semitone, 12)] as readonly [number, number];
  return pitchFromSpelling({ letter: letterAt(step), alter, octave: Math.floor(semitone / 12) - 1 });
}

/**
 * What a chanter is first called when only its hertz are known: the nearest semitone of a band at A 440, except that B flat reaches from
 * 453 to 487 Hz (and likewise in the octave of smallpipes). It is a first offer; afterwards the setup's own name holds.
 */
export function usualLowAName(lowA: Hertz): ConcertPitch {
  const { semitone } = nearestSemitone(lowA, USUAL_BAND_A);
  const octavesDown = positiveModulo(semitone, 12) === 11 ? Math.round((71 - semitone) / 12) : 0;
  const calledBFlat = positiveModulo(semitone, 12) === 11 && lowA * 2 ** octavesDown < B_FLAT_UP_TO;
  return lowAName(calledBFlat ? semitone - 1 : semitone);
}
