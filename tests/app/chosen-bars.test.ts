import { expect, test } from "vitest";
import { chosenBars } from "../../components/app/chosen-bars.ts";
import { NOTHING } from "../../src/editing/selection.ts";
import { newScore } from "../../src/score/new-score.ts";
import { ticks } from "../../src/units/ticks.ts";

const score = newScore({ bars: 8 });
const at = (bar: number, tick = 0) => ({ bar, at: ticks(tick) });

test("a note is in its own bar", () => {
  expect(chosenBars(score, { kind: "note", at: { line: "pipes", ...at(3, 960) } }, 0)).toEqual({ first: 3, last: 3 });
});

test("a stretch that ends at a bar line does not reach into the bar after it", () => {
  expect(chosenBars(score, { kind: "stretch", line: "pipes", from: at(2), to: at(4) }, 0)).toEqual({ first: 2, last: 3 });
  expect(chosenBars(score, { kind: "stretch", line: "pipes", from: at(2), to: at(4, 240) }, 0)).toEqual({ first: 2, last: 4 });
});

test("with nothing chosen it is the bar the hand is at, never one that is gone", () => {
  expect(chosenBars(score, NOTHING, 5)).toEqual({ first: 5, last: 5 });
  expect(chosenBars(score, NOTHING, 50)).toEqual({ first: 7, last: 7 });
});
