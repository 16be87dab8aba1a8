import fc from "fast-check";
import { expect, test } from "vitest";
import { benchScore } from "../../scripts/bench/bench-score.ts";
import { applyEdit } from "../../src/editing/apply-edit.ts";
import { DeskBars } from "../../src/engraving/desk-bars.ts";
import type { BarDrawing } from "../../src/engraving/drawing.ts";
import { screenWidths } from "../../src/engraving/screen-widths.ts";
import { deskSyllableBaseline, staffReach } from "../../src/engraving/staff-reach.ts";
import type { Score } from "../../src/score/score.ts";
import { touchedBars } from "../../src/score/touched-bars.ts";
import { ticks } from "../../src/units/ticks.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { editFrom } from "../support/random-edits.ts";
import { watchedScore } from "../support/watched-score.ts";

const BARS = 1000;

/** Every part of a score as its sheets show it. */
class Desk {
  readonly #parts = new Map<string, DeskBars>();

  drawings(score: Score, from = 0, to = score.frames.length): readonly (readonly BarDrawing[])[] {
    const widths = screenWidths(score).slice(from, to);
    return score.lines.map((line) => {
      const part = this.#parts.get(line.id) ?? new DeskBars();
      this.#parts.set(line.id, part);
      part.show({ score, line, syllableBaseline: deskSyllableBaseline(staffReach(score, line)) });
      return widths.map((width, index) => part.drawing(from + index, width));
    });
  }
}

function edited(score: Score, edit: Parameters<typeof applyEdit>[1]): Score {
  const outcome = applyEdit(score, edit);
  if (!outcome.ok) throw new RangeError(outcome.reason);
  return outcome.value;
}

test(
  `another pitch in one of ${BARS} bars makes at most 2 drawings a part anew and looks into the bars beside it only`,
  () => {
    const { score, looked } = watchedScore(benchScore(BARS));
    const desk = new Desk();
    const repitched = (of: Score, bar: number) =>
      edited(of, { kind: "repitch", at: { line: "pipes", bar, at: ticks(480) }, content: { kind: "pipes", note: "low-a" } });
    // The first edit of a sketch counts its bar lines; every one after it finds them counted.
    const one = repitched(score, 20);
    const before = desk.drawings(one, 480, 520);
    looked();
    const after = repitched(one, 500);
    const seen = desk.drawings(after, 480, 520);
    expect(looked().filter((bar) => bar < 498 || bar > 502)).toEqual([]);
    for (const [part, drawings] of seen.entries()) {
      const others = drawings.filter((drawing, bar) => drawing !== before[part]?.[bar]);
      expect(others.length).toBeLessThanOrEqual(2);
      expect(others.length).toBeGreaterThan(0);
    }
  },
  PATIENCE,
);

test("an edit that leaves every bar as wide as it was leaves the identical list of widths, and undo finds the one before", () => {
  const score = benchScore(BARS);
  const widths = screenWidths(score);
  const words = edited(score, { kind: "title", title: "Seconds" });
  expect(screenWidths(words)).toEqual(widths);
  const at = { line: "pipes", bar: 500, at: ticks(480) };
  const after = edited(score, { kind: "repitch", at, content: { kind: "pipes", note: "b" } });
  const wider = edited(after, { kind: "split", at, ticks: ticks(120) });
  expect(screenWidths(after)).toBe(widths);
  expect(screenWidths(wider)).not.toEqual(widths);
  expect(screenWidths(score)).toBe(widths);
});

test("bars are told apart by identity; a change of anything that all bars share touches all of them", () => {
  const score = lanternScore();
  const graced = edited(score, { kind: "gracenotes", at: { line: "pipes", bar: 1, at: ticks(0) }, gracenotes: ["e"] });
  expect(touchedBars(score, graced)).toEqual([1]);
  expect(touchedBars(score, edited(score, { kind: "title", title: "Seconds" }))).toBeNull();
  expect(touchedBars(score, edited(score, { kind: "rename-line", line: "pipes", name: "Mairi" }))).toBeNull();
  expect(touchedBars(score, edited(score, { kind: "insert-bars", before: 1, count: 1 }))).toBeNull();
  expect(touchedBars(score, edited(score, { kind: "make-own", line: "doubler", range: { first: 2, last: 2 } }))).toBeNull();
  expect(touchedBars(score, { ...score, revision: 99 })).toEqual([]);
});

test(
  "widths, reach and drawings carried over any edits are those of a score that was never seen before",
  () => {
    const numbers = fc.array(fc.nat(), { minLength: 40, maxLength: 40 });
    fc.assert(
      fc.property(fc.array(numbers, { minLength: 1, maxLength: 6 }), (draws) => {
        const desk = new Desk();
        let score = lanternScore();
        desk.drawings(score);
        for (const one of draws) {
          const outcome = applyEdit(score, editFrom(score, one));
          if (!outcome.ok) continue;
          score = outcome.value;
          const carried = { widths: screenWidths(score), drawings: desk.drawings(score) };
          const fresh = structuredClone(score);
          expect(carried.widths).toEqual(screenWidths(fresh));
          expect(carried.drawings).toEqual(new Desk().drawings(fresh));
        }
      }),
      { seed: 8, numRuns: cases(30, 3000) },
    );
  },
  PATIENCE,
);
