import fc from "fast-check";
import { expect, test } from "vitest";
import { dissonance, dissonanceBetween, dissonanceCurve, pairDissonance } from "../../src/acoustics/dissonance.ts";
import { type Partial, partialsOf } from "../../src/acoustics/partial.ts";
import { cents } from "../../src/units/cents.ts";
import { decibels } from "../../src/units/decibels.ts";
import { hertz } from "../../src/units/hertz.ts";
import { cases } from "../support/cases.ts";

const tone = (frequency: number, amplitude = 1): Partial => ({ hertz: hertz(frequency), amplitude });
const harmonics = (fundamental: number, count: number) => partialsOf(hertz(fundamental), Array<0>(count).fill(0).map(decibels));

const partial = fc.record({
  hertz: fc.double({ min: 40, max: 8000, noNaN: true }).map(hertz),
  amplitude: fc.double({ min: 0, max: 2, noNaN: true }),
});
const sound = fc.array(partial, { maxLength: 40 });

/** Every pair once, with nothing left out and nothing sorted: the sum as the book writes it. */
function bruteForce(one: readonly Partial[], other: readonly Partial[] | null): number {
  const written = (a: Partial, b: Partial) => {
    const s = 0.24 / (0.0207 * Math.min(a.hertz, b.hertz) + 18.96);
    const d = Math.abs(a.hertz - b.hertz);
    return Math.min(a.amplitude, b.amplitude) * (5 * Math.exp(-3.51 * s * d) - 5 * Math.exp(-5.75 * s * d));
  };
  let sum = 0;
  if (other === null) for (const [index, a] of one.entries()) for (const b of one.slice(index + 1)) sum += written(a, b);
  else for (const a of one) for (const b of other) sum += written(a, b);
  return sum;
}

test("two pure tones are roughest where s times their distance is 0.2203, at 0.8988 of the weaker amplitude", () => {
  // Source: derived from the constants in the appendix of Sethares, Tuning, Timbre, Spectrum, Scale.
  for (const lower of [116.54, 233.08, 466.16, 932.33]) {
    const perHertz = 0.24 / (0.0207 * lower + 18.96);
    const at = (distance: number) => pairDissonance(tone(lower, 0.7), tone(lower + distance / perHertz, 2));
    expect(at(0.2203)).toBeCloseTo(0.7 * 0.8988, 4);
    for (const beside of [0.05, 0.15, 0.21, 0.23, 0.3, 1]) expect(at(beside)).toBeLessThan(at(0.2203));
    expect(at(0)).toBe(0);
  }
});

test("the sum is the brute-force sum to a millionth, whatever sounds and in whatever order", () => {
  fc.assert(
    fc.property(sound, sound, (one, other) => {
      expect(dissonance(one)).toBeCloseTo(bruteForce(one, null), 5);
      expect(dissonance([...one].reverse())).toBeCloseTo(dissonance(one), 9);
      expect(dissonanceBetween(one, other)).toBeCloseTo(bruteForce(one, other), 5);
      expect(dissonanceBetween(other, one)).toBeCloseTo(dissonanceBetween(one, other), 9);
    }),
    { seed: 1965, numRuns: cases(100, 5000) },
  );
});

test("all of a blend is what each sound does to itself and what they do to each other", () => {
  fc.assert(
    fc.property(sound, sound, (one, other) => {
      const parts = dissonance(one) + dissonance(other) + dissonanceBetween(one, other);
      expect(dissonance([...one, ...other])).toBeCloseTo(parts, 5);
    }),
    { seed: 1993, numRuns: cases(50, 2000) },
  );
});

test("six equal harmonics against six more are smoothest, of all within an octave, at the unison, the octave and the fifth", () => {
  // Source: the idea, Sethares, JASA 94 (1993) 1218: for harmonic timbres minima lie at simple ratios. The bounds beside each are ours.
  const low = harmonics(440, 6);
  const at = (ratio: number) => dissonanceBetween(low, harmonics(440 * ratio, 6));
  for (const [minimum, less, more] of [
    [3 / 2, 1.47, 1.53],
    [4 / 3, 1.31, 1.36],
    [5 / 3, 1.64, 1.7],
    [2, 1.96, 2.04],
  ] as const) {
    expect(at(minimum)).toBeLessThan(at(less));
    expect(at(minimum)).toBeLessThan(at(more));
  }
});

test("a curve over 50 cents each way has 101 places, its middle the sound as it is, its bottom for a just third at 0 cents", () => {
  const drone = harmonics(116.54, 16);
  const third = harmonics(116.54 * 5, 8);
  const curve = dissonanceCurve(third, drone);
  expect(curve).toHaveLength(101);
  expect(curve[0]?.cents).toBe(-50);
  expect(curve[50]).toEqual({ cents: 0, dissonance: dissonanceBetween(third, drone) });
  const lowest = curve.reduce((best, point) => (point.dissonance < best.dissonance ? point : best));
  expect(lowest.cents).toBe(0);
  expect(() => dissonanceCurve(third, drone, cents(50), cents(0))).toThrow(RangeError);
});
