import fc from "fast-check";
import type { ConcertPitch } from "../../src/pitch/concert-pitch.ts";
import type { Key } from "../../src/pitch/key.ts";
import { MODES } from "../../src/pitch/key-signature.ts";
import { LETTERS } from "../../src/pitch/letter.ts";
import { pitchFromSpelling } from "../../src/pitch/spelling.ts";

/** One seed for every law about pitches, so that a failing case comes again. */
export const seeded = { seed: 19_440, numRuns: 500 } as const;

/** Any spelled pitch, double accidentals included, from C0 to B8. */
export const anyPitch: fc.Arbitrary<ConcertPitch> = fc
  .record({ letter: fc.constantFrom(...LETTERS), alter: fc.integer({ min: -2, max: 2 }), octave: fc.integer({ min: 0, max: 8 }) })
  .map(pitchFromSpelling);

/** Pitches as a part has them: at most one accidental, in the middle octaves. */
export const readablePitch: fc.Arbitrary<ConcertPitch> = fc
  .record({ letter: fc.constantFrom(...LETTERS), alter: fc.integer({ min: -1, max: 1 }), octave: fc.integer({ min: 3, max: 6 }) })
  .map(pitchFromSpelling);

/** Tonics that a signature of at most seven accidentals can have in major, in any mode. */
export const anyKey: fc.Arbitrary<Key> = fc.record({
  tonic: fc.constantFrom("C", "G", "D", "A", "E", "B", "F#", "C#", "F", "Bb", "Eb", "Ab", "Db", "Gb", "Cb", "G#", "D#"),
  mode: fc.constantFrom(...MODES),
});
