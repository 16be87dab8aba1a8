import { expect, test } from "vitest";
import type { Finding } from "../../src/score/finding.ts";
import { findingsInBar } from "../../src/score/numbered-findings.ts";
import { ticks } from "../../src/units/ticks.ts";

function finding(line: string, bar: number): Finding {
  return { kind: "rest", address: { line, bar, at: ticks(0) }, message: "", cures: [] };
}

test("a bar's findings keep their places in the whole list, and lines are told apart", () => {
  const list = [finding("pipes", 0), finding("fiddle", 3), finding("pipes", 3), finding("pipes", 3)];
  expect(findingsInBar(list, "pipes", 3)).toEqual([
    { number: 3, finding: list[2] },
    { number: 4, finding: list[3] },
  ]);
  expect(findingsInBar(list, "fiddle", 3).map(({ number }) => number)).toEqual([2]);
  expect(findingsInBar(list, "fiddle", 0)).toEqual([]);
  expect(findingsInBar([], "pipes", 0)).toEqual([]);
});
