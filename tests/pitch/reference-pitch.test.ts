import fc from "fast-check";
import { expect, it } from "vitest";
import { bandAForPitch, equalHertz, isBandA, nearestSemitone, USUAL_BAND_A } from "../../src/pitch/reference-pitch.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import { hertz } from "../../src/units/hertz.ts";
import { anyPitch, seeded } from "../support/pitches.ts";

it("At A 440 (ISO 16) B flat 4 is 466.16 Hz, B4 493.88 Hz and middle C 261.63 Hz", () => {
  expect(equalHertz(concertPitch("Bb4"), USUAL_BAND_A)).toBeCloseTo(466.16, 2);
  expect(equalHertz(concertPitch("B4"), USUAL_BAND_A)).toBeCloseTo(493.88, 2);
  expect(equalHertz(concertPitch("C4"), USUAL_BAND_A)).toBeCloseTo(261.63, 2);
});

it("A band's A and a pitch's hertz lead back to each other within a millionth of a cent", () => {
  fc.assert(
    fc.property(anyPitch, fc.double({ min: 380, max: 480, noNaN: true }), (pitch, a) => {
      const back = bandAForPitch(pitch, equalHertz(pitch, hertz(a)));
      expect(Math.abs(1200 * Math.log2(back / a))).toBeLessThan(1e-6);
    }),
    seeded,
  );
});

it("A band's A lies between 380 and 480 Hz, both included", () => {
  expect([379.9, 380, 440, 480, 480.1, Number.NaN].map(isBandA)).toEqual([false, true, true, true, false, false]);
});

it("480 Hz lies 49.36 cents under B4 at A 440, so B4 is the nearest semitone", () => {
  const { semitone, cents } = nearestSemitone(hertz(480), USUAL_BAND_A);
  expect(semitone).toBe(71);
  expect(cents).toBeCloseTo(-49.36, 2);
});
