import { expect, test } from "vitest";
import type { PageDrawing } from "../../src/engraving/page-drawing.ts";
import { pagesOf } from "../../src/engraving/pages.ts";
import { PLAIN_STYLE } from "../../src/engraving/part-style.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { placedMarks } from "../support/collisions.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";

const example = EXAMPLE_SKETCHES.find(({ file }) => file === "the-long-light.json");
const air = scoreFromSavedForm(example?.text ?? "");

/** The pickup on the first line of staff, and the heading over it. */
function pickupOf(score: Score, style = PLAIN_STYLE) {
  const page = pagesOf(score, score.lines[0] as Line, "a4", style)[0] as PageDrawing;
  const pickup = page.staves.find(({ bars }) => bars?.first === 0);
  const next = page.staves.find(({ bars }) => bars?.first === 1);
  const heading = placedMarks(page.staves).filter(({ mark }) => mark.kind === "text" && ["A  First part", "= 50"].includes(mark.text));
  const boxes = heading.map(({ shape }) => shape.box);
  const nextMarks = next === undefined ? [] : placedMarks([next]);
  return { width: pickup?.drawing.width ?? 0, barLine: next?.x ?? 0, boxes, nextMarks };
}

test("a pickup of one eighth is no wider than 70 px under a heading of 110, which runs on over the bar line", () => {
  const { width, barLine, boxes } = pickupOf(air);
  expect(boxes.length).toBe(2);
  expect(width).toBeLessThan(70);
  const [left, right] = [Math.min(...boxes.map((box) => box.left)), Math.max(...boxes.map((box) => box.right))];
  expect(right - left).toBeGreaterThan(110);
  expect(right).toBeGreaterThan(barLine);
});

test("the heading stands clear of all ink in the bar that it runs on over, chords and charts too", () => {
  const frames = air.frames.map((frame, bar) => (bar === 1 ? { ...frame, chords: [{ at: 0, symbol: "D" }] } : frame));
  const score = { ...air, frames } as Score;
  const { boxes, nextMarks, barLine } = pickupOf(score, { charts: "cross-fingered", chords: true });
  const [right, bottom] = [Math.max(...boxes.map((box) => box.right)), Math.max(...boxes.map((box) => box.bottom))];
  expect(right).toBeGreaterThan(barLine);
  const under = nextMarks.filter(({ shape: { box } }) => box.left < right);
  expect(under.some(({ kind }) => kind === "chord")).toBe(true);
  for (const { shape } of under) expect(shape.box.top).toBeGreaterThan(bottom);
});

test("where the next bar is headed too, the pickup is as wide as its own heading", () => {
  const frames = air.frames.map((frame, bar) => (bar >= 1 ? { ...frame, tempo: { ...frame.tempo, perMinute: 60 } } : frame));
  const { boxes, barLine } = pickupOf({ ...air, frames } as Score);
  expect(Math.max(...boxes.map((box) => box.right))).toBeLessThan(barLine);
});
