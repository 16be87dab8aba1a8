import { expect, test } from "vitest";
import { beatsBetween, clearestBeat } from "../../src/acoustics/beats.ts";
import { partialsOf } from "../../src/acoustics/partial.ts";
import { decibels } from "../../src/units/decibels.ts";
import { hertz } from "../../src/units/hertz.ts";

const sound = (frequency: number) => partialsOf(hertz(frequency), [0, -4, -8, -12].map(decibels));
const equal = (semitones: number) => 440 * 2 ** (semitones / 12);
const LOW_A = equal(1);

test.each([
  // Source: derived in the house's trade facts from ISO 16 and the published scales: C, F and high G of a B-flat chanter in unison with an equal-tempered player.
  ["C at 5/4 beats 4.6 times a second with an equal D5", 5 / 4, equal(5), 4.6],
  ["F at 5/3 beats 7.1 times a second with an equal G5", 5 / 3, equal(10), 7.1],
  ["high G at 7/4 beats 14.8 times a second with an equal A flat 5", 7 / 4, equal(11), 14.8],
  ["high G at 9/5 beats 8.5 times a second with an equal A flat 5", 9 / 5, equal(11), 8.5],
])("%s", (_, ratio, band, rate) => {
  const beat = clearestBeat(sound(LOW_A * ratio), sound(band));
  expect(beat?.partials).toEqual([0, 0]);
  expect(beat?.perSecond).toBeCloseTo(rate, 1);
});

test("a just fifth does not beat: its partials 2 and 3 are one", () => {
  expect(clearestBeat(sound(300), sound(200))).toMatchObject({ perSecond: 0, cents: 0, partials: [1, 2] });
});

test("a fifth 2 cents wide beats as its partials 2 and 3 are apart, and the sign of the cents says which is higher", () => {
  const beat = clearestBeat(sound(300 * 2 ** (2 / 1200)), sound(200));
  expect(beat?.perSecond).toBeCloseTo(600 * (2 ** (2 / 1200) - 1), 6);
  expect(beat?.cents).toBeCloseTo(2, 6);
});

test("sounds with no partials within a quarter tone of each other do not beat", () => {
  expect(clearestBeat(partialsOf(hertz(400), [decibels(0)]), sound(290))).toBeNull();
  expect(beatsBetween([], sound(290))).toEqual([]);
});

test("beats 20 dB under the deepest are left out", () => {
  const own = partialsOf(hertz(440), [decibels(0), decibels(-30)]);
  expect(beatsBetween(own, partialsOf(hertz(442), [decibels(0), decibels(0)]))).toHaveLength(1);
});
