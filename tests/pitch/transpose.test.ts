import fc from "fast-check";
import { Interval, Note } from "tonal";
import { describe, expect, it } from "vitest";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { concertPitch, spellingOf } from "../../src/pitch/spelling.ts";
import { intervalBetween, inverted, transposed } from "../../src/pitch/transpose.ts";
import { anyPitch, readablePitch, seeded } from "../support/pitches.ts";

/** Intervals by their size in staff steps and semitones, and by the name tonal gives them. */
const NAMED = [
  { name: "1P", diatonic: 0, chromatic: 0 },
  { name: "2m", diatonic: 1, chromatic: 1 },
  { name: "2M", diatonic: 1, chromatic: 2 },
  { name: "3m", diatonic: 2, chromatic: 3 },
  { name: "3M", diatonic: 2, chromatic: 4 },
  { name: "4P", diatonic: 3, chromatic: 5 },
  { name: "4A", diatonic: 3, chromatic: 6 },
  { name: "5P", diatonic: 4, chromatic: 7 },
  { name: "6M", diatonic: 5, chromatic: 9 },
  { name: "7m", diatonic: 6, chromatic: 10 },
  { name: "8P", diatonic: 7, chromatic: 12 },
  { name: "9M", diatonic: 8, chromatic: 14 },
  { name: "-2M", diatonic: -1, chromatic: -2 },
  { name: "-3m", diatonic: -2, chromatic: -3 },
  { name: "-8P", diatonic: -7, chromatic: -12 },
] as const;

describe("transposing", () => {
  it("spells as tonal does, an outside reference, for fifteen intervals", () => {
    for (const { name } of NAMED) expect(Interval.semitones(name), name).toBe(NAMED.find((row) => row.name === name)?.chromatic);
    fc.assert(
      fc.property(readablePitch, fc.constantFrom(...NAMED), (pitch, { name, diatonic, chromatic }) => {
        const expected = Note.transpose(pitch, name);
        fc.pre(/^[A-G](##?|bb?)?\d$/.test(expected));
        expect(transposed(pitch, diatonic, chromatic)).toBe(expected);
      }),
      seeded,
    );
  });

  it("moves by exactly the semitones asked for, whatever the spelling", () => {
    fc.assert(
      fc.property(anyPitch, fc.integer({ min: -3, max: 3 }), fc.integer({ min: -6, max: 6 }), (pitch, steps, semitones) => {
        fc.pre(Math.abs(semitones - steps * 1.7) < 3 && spellingOf(pitch).octave > 0 && spellingOf(pitch).octave < 8);
        expect(semitoneOf(transposed(pitch, steps, semitones)) - semitoneOf(pitch)).toBe(semitones);
      }),
      seeded,
    );
  });

  it("comes back by the inverted interval where no respelling was needed", () => {
    fc.assert(
      fc.property(readablePitch, readablePitch, (from, to) => {
        const interval = intervalBetween(from, to);
        expect(transposed(from, interval.diatonic, interval.chromatic)).toBe(to);
        const back = inverted(interval);
        expect(transposed(to, back.diatonic, back.chromatic)).toBe(from);
      }),
      seeded,
    );
  });

  it("takes the next letter where three accidentals would be needed", () => {
    expect(transposed(concertPitch("B##4"), 1, 3)).toBe("D##5");
    expect(transposed(concertPitch("Fbb4"), 0, -1)).toBe("Ebb4");
  });
});
