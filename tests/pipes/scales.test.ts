import { describe, expect, it } from "vitest";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import type { PublishedScale } from "../../src/pipes/pipe-setup.ts";
import { centsInScale, measuredFrom, SCALE_NAMES, SCALES } from "../../src/pipes/scales.ts";

/** Where equal temperament has the nine, cents over low A. */
const EQUAL = [-200, 0, 200, 400, 500, 700, 900, 1000, 1200];

const deviations = (name: PublishedScale) => SCALES[name].cents.map((own, index) => own - (EQUAL[index] as number));

function expectWithin(actual: readonly number[], expected: readonly number[], tolerance: number): void {
  expect(actual.length).toBe(expected.length);
  for (const [index, value] of actual.entries()) {
    expect(Math.abs(value - (expected[index] as number)), NINE_NOTES[index]).toBeLessThanOrEqual(tolerance);
  }
}

describe("a chanter scale", () => {
  // Half of the last decimal printed.
  const PRINTED = 0.05;

  it("septimal lies -31.2 0 +3.9 -13.7 -2.0 +2.0 -15.6 -31.2 0 cents off equal temperament (Macpherson 1998)", () => {
    expectWithin(deviations("septimal"), [-31.2, 0, 3.9, -13.7, -2.0, 2.0, -15.6, -31.2, 0], PRINTED);
  });

  it("1954 lies -3.9 0 +3.9 -13.7 +19.6 +2.0 -15.6 +17.6 0 cents off (Lenihan and MacNeill 1954, in Macpherson 1998)", () => {
    expectWithin(deviations("1954"), [-3.9, 0, 3.9, -13.7, 19.6, 2.0, -15.6, 17.6, 0], PRINTED);
  });

  it("1991 has low G at 9/10, D at 4/3 and high G at 9/5: +17.6, -2.0 and +17.6 cents off (Chatto 1991, bagpipe3.scl)", () => {
    expectWithin(deviations("1991"), [17.6, 0, 3.9, -13.7, -2.0, 2.0, -15.6, 17.6, 0], PRINTED);
  });

  it("equal is equal", () => {
    expect(SCALES.equal.cents).toEqual(EQUAL);
  });

  it("has low A at 0, high A at 1200 and rises from note to note, whichever it is", () => {
    for (const name of SCALE_NAMES) {
      const values = SCALES[name].cents;
      expect(values[1], name).toBe(0);
      expect(values[8], name).toBe(1200);
      expect(values, name).toEqual(values.toSorted((a, b) => a - b));
    }
  });

  it("names its source", () => {
    for (const name of SCALE_NAMES) expect(SCALES[name].source.length, name).toBeGreaterThan(20);
  });

  it("can be taken over note by note as a piper's own measurements", () => {
    const own = measuredFrom({ kind: "published", name: "1954" });
    expect(NINE_NOTES.map((note) => centsInScale(own, note))).toEqual(SCALES["1954"].cents);
  });
});

it("The published scales agree on low A, B, C, E, F and high A, and differ in D and both Gs", () => {
  const disputed = NINE_NOTES.filter(
    (_, index) => new Set((["septimal", "1954", "1991"] as const).map((name) => SCALES[name].cents[index])).size > 1,
  );
  expect(disputed).toEqual(["low-g", "d", "high-g"]);
});
