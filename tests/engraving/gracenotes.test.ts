import { expect, test } from "vitest";
import type { LineMark, Mark } from "../../src/engraving/drawing.ts";
import { gracenoteMarks, gracenotesWidth } from "../../src/engraving/gracenotes.ts";
import { staffY } from "../../src/engraving/signature.ts";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";

const isLedger = (mark: Mark): mark is LineMark => mark.kind === "line" && mark.y1 === mark.y2;
const lowA = staffY("A", 4, "treble");

test("of the nine gracenotes only high A has a ledger line, as only it stands on one", () => {
  const withLedger = NINE_NOTES.filter((note) => gracenoteMarks([note], 100, lowA).some(isLedger));
  expect(withLedger).toEqual(["high-a"]);
});

test("a single gracenote has the flag of a 32nd, several have three beams over all of them", () => {
  const single = gracenoteMarks(["high-g"], 100, lowA);
  expect(single.filter((mark) => mark.kind === "glyph").map(({ code }) => code)).toEqual([0xe0a4, 0xe244]);
  const several = gracenoteMarks(["low-g", "d", "low-g", "e"], 100, lowA);
  expect(several.filter((mark) => mark.kind === "path")).toHaveLength(3);
  expect(several.filter((mark) => mark.kind === "glyph")).toHaveLength(4);
  const tips = several.filter((mark) => mark.kind === "line" && !isLedger(mark)).map((mark) => (mark as LineMark).y2);
  expect(new Set(tips).size).toBe(1);
});

test("a strike under a higher note keeps its flag 4 px clear of where a flag over a lower note may reach", () => {
  expect(gracenotesWidth(["low-g"], staffY("D", 5, "treble")) - gracenotesWidth(["high-g"], lowA)).toBeCloseTo(4, 1);
});
