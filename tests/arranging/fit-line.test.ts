import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { FitChoice } from "../../src/arranging/fit-choice.ts";
import { USUAL_FIT } from "../../src/arranging/fit-choice.ts";
import { fitLine } from "../../src/arranging/fit-line.ts";
import { cheapestPath, choicesAt, type FitTask, startCost, stepCost } from "../../src/arranging/fit-path.ts";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { cases } from "../support/cases.ts";
import { songNotes } from "../support/tune-notes.ts";

const fitted = (text: string, semitones = 0) =>
  fitLine({
    notes: songNotes(text),
    bars: [],
    chords: [],
    key: { tonic: "D", mode: "major" },
    setup: defaultSetup("A"),
    semitones,
  });

const noteToFit = fc.record({
  written: fc.integer({ min: 60, max: 88 }),
  quarters: fc.constantFrom(0.5, 1, 2),
  foldable: fc.boolean(),
  melisma: fc.boolean(),
  prominence: fc.integer({ min: 0, max: 3 }),
  pinned: fc.boolean(),
  chord: fc.constantFrom([2, 6, 9], [], [9, 1, 4]),
  tonic: fc.constantFrom(2, 9),
});

/** The least cost of all ways through, each one tried. */
function leastOfAll(task: FitTask): number {
  const from = (at: number, before: FitChoice): number =>
    at === task.notes.length
      ? 0
      : Math.min(
          ...choicesAt(task, at).map((choice) => {
            const step = stepCost(task, before, choice, task.notes[at]?.foldable ?? false);
            return step === Number.POSITIVE_INFINITY ? step : step + choice.cost + from(at + 1, choice);
          }),
        );
  return Math.min(...choicesAt(task, 0).map((choice) => startCost(choice, task.weights) + from(1, choice)));
}

describe("fitting a line", () => {
  it("costs no more than the cheapest of all ways through", () => {
    fc.assert(
      fc.property(fc.array(noteToFit, { minLength: 1, maxLength: 4 }), (notes) => {
        const task: FitTask = { notes, octaves: [0, -1], speaking: NINE_NOTES, weights: USUAL_FIT, passing: (a, b) => (a < b ? 2 : 0) };
        expect(cheapestPath(task).cost).toBeCloseTo(leastOfAll(task), 9);
      }),
      { seed: 5, numRuns: cases(60, 1000) },
    );
  });

  it("brings a tune that fits back unchanged", () => {
    const line = fitted("74 74 76 78 79 81 78 74 69 71 73 74 67 69");
    expect(line.notes.map(({ change }) => change)).toEqual(line.notes.map(() => null));
    expect(line).toMatchObject({ cost: 0, kept: 1, fits: true });
  });

  it("brings a tune that fits an octave lower back unchanged", () => {
    expect(fitted("62 62 64 66 67 69 66 62 57 59 61 62").notes.every(({ change, octave }) => change === null && octave === 0)).toBe(true);
  });

  it("replaces a note above high A and says why", () => {
    const high = fitted("74 76 78 81 83 81 78 74").notes[4];
    expect(high).toMatchObject({ note: "high-a", change: "neighbour", why: "Above high A: high A, the note beside it." });
  });

  it("folds a phrase only after a rest, a leap of a fifth, or where the words end", () => {
    const line = fitted("74 76 78 81 - 86 88 90 93 90 88 86 - 81 78 76 74");
    expect(line.notes.map(({ octave }) => octave)).toEqual([0, 0, 0, 0, -1, -1, -1, -1, -1, -1, -1, 0, 0, 0, 0]);
    expect(line.notes[4]).toMatchObject({ change: "octave", note: "d" });
  });

  it("says that a tune of two octaves in steps does not fit", () => {
    expect(fitted("57 59 61 62 64 66 67 69 71 73 74 76 78 79 81 83").fits).toBe(false);
  });
});
