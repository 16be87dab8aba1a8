import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { musicxmlOfScore } from "../../src/exchange/musicxml-score.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import { check } from "../../src/score/check.ts";
import { savedFormOf, scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";
import { ReadError } from "../../src/units/read-error.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";
import { anyDamage, anyNearText, damagedJson } from "../support/mutations.ts";

const SEED = 812;
const anyExample = fc.constantFrom(...EXAMPLE_SKETCHES.map(({ text }) => text));

/** Reads a text; null when it is refused in the right way. */
function readOrRefused(text: string): Score | null {
  try {
    return scoreFromSavedForm(text);
  } catch (error) {
    if (!(error instanceof ReadError)) throw error;
    expect(error.where).not.toBe("");
    expect(error.expected).not.toBe("");
    expect(error.found).not.toBe("");
    expect(error.message.length).toBeLessThan(1000);
    return null;
  }
}

/** Whatever was taken in must be a score that everything can work with. */
function expectUsable(score: Score): void {
  expect(scoreFromSavedForm(savedFormOf(score))).toEqual(score);
  check(score);
  scheduleOf(score);
  musicxmlOfScore(score);
}

describe("a damaged sketch is refused with place, expectation and finding, or read as a score that can be used", () => {
  it("when values, entries or lists of it are wrong", { timeout: PATIENCE }, () => {
    fc.assert(
      fc.property(anyExample, fc.array(anyDamage, { minLength: 1, maxLength: 3 }), (text, damages) => {
        const score = readOrRefused(damagedJson(text, damages));
        if (score !== null) expectUsable(score);
      }),
      { seed: SEED, numRuns: cases(400, 50_000) },
    );
  });

  it("when its text is cut short, or letters of it are lost or strange", { timeout: PATIENCE }, () => {
    fc.assert(
      fc.property(anyExample.chain(anyNearText), (text) => {
        const score = readOrRefused(text);
        if (score !== null) expectUsable(score);
      }),
      { seed: SEED, numRuns: cases(200, 20_000) },
    );
  });

  it("when it is any text, or JSON of something else", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: "binary" }), fc.json()), (text) => {
        expect(readOrRefused(text)).toBeNull();
      }),
      { seed: SEED, numRuns: cases(200, 20_000) },
    );
  });
});
