import { expect, test } from "vitest";
import { chartPagesOf } from "../../src/engraving/chart-pages.ts";
import type { PageDrawing } from "../../src/engraving/page-drawing.ts";
import { withDrone } from "../../src/pipes/setup-changes.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import { collisionsOf, inWords, placedMarks } from "../support/collisions.ts";
import { lanternScore } from "../support/lantern-score.ts";

const PAPERS = ["a4", "letter"] as const;

function chartOf(score: Score, paper: (typeof PAPERS)[number] = "a4"): PageDrawing {
  const pages = chartPagesOf(score, score.lines[0] as PipeLine, paper);
  expect(pages).toHaveLength(1);
  return pages[0] as PageDrawing;
}

function wordsOf(page: PageDrawing): readonly string[] {
  return page.groups.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])));
}

test("the chart of a B-flat chanter says what each note is, sounds and is off the band, from low G to high A", () => {
  const words = wordsOf(chartOf(lanternScore("Bb")));
  const row = (first: string, count: number) => words.slice(words.indexOf(first), words.indexOf(first) + count);
  expect(row("low G", 12)).toEqual([
    ...["low G", "low A", "B", "C natural", "C", "D", "E", "F natural", "F", "high G", "high G♯", "high A"],
  ]);
  // Source: the septimal scale (Macpherson 1998) on 466.16 Hz; 7/8, 9/8, 5/4, 4/3, 3/2, 5/3, 7/4 by arithmetic.
  const hertz = row("hertz", 13).map(Number);
  expect([1, 2, 3, 5, 6, 7, 9, 10, 12].map((place) => hertz[place])).toEqual([
    407.9, 466.2, 524.4, 582.7, 621.6, 699.2, 776.9, 815.8, 932.3,
  ]);
  // Source: deviations derived from the same scale.
  const cents = row("cents off band", 13);
  expect([1, 2, 3, 5, 6, 7, 9, 10, 12].map((place) => cents[place])).toEqual(["−31", "0", "+4", "−14", "−2", "+2", "−16", "−31", "0"]);
});

test("drones are drawn as long as they sound deep, a bass twice as long as a tenor, with pitch and hertz", () => {
  const page = chartOf(lanternScore("Bb"));
  const words = wordsOf(page);
  expect(words.slice(words.indexOf("bass"), words.indexOf("bass") + 3)).toEqual(["bass", "B♭2", "116.5 Hz"]);
  const lengths = page.groups
    .filter(({ role, marks }) => role === "furniture" && marks[0]?.kind === "path")
    .map(({ box }) => box.right - box.left);
  expect(lengths).toHaveLength(3);
  expect((lengths[0] as number) / (lengths[1] as number)).toBeCloseTo(2, 3);
});

test("only what sounds is on the chart: a corked drone is not, and a note that does not speak is not", () => {
  const score = lanternScore("Bb");
  const pipes = score.lines[0] as PipeLine;
  const silent = pipes.setup.crossFingerings.map((own) => ({ ...own, speaks: false }));
  const setup = withDrone({ ...pipes.setup, crossFingerings: silent }, 2, { on: false });
  const page = chartOf({ ...score, lines: [{ ...pipes, setup }, ...score.lines.slice(1)] });
  expect(wordsOf(page)).not.toContain("C natural");
  expect(page.groups.filter(({ role }) => role === "holes")).toHaveLength(9);
  expect(wordsOf(page)).not.toContain("bass");
});

test("its foot names song, player and revision", () => {
  expect(wordsOf(chartOf(lanternScore("Bb")))).toContain("Paper Lantern Weather · Pipes · revision 12 · fingering chart");
});

test.each(PAPERS)("nothing collides on the chart, and nothing comes nearer than 14 mm to the edge of %s paper", (paper) => {
  for (const chanter of ["A", "Bb", "B"] as const) {
    const page = chartOf(lanternScore(chanter), paper);
    const marks = placedMarks(page.staves, page.groups);
    expect(collisionsOf(marks).map(inWords)).toEqual([]);
    for (const { shape } of marks) {
      expect(shape.box.left).toBeGreaterThanOrEqual(56);
      expect(shape.box.top).toBeGreaterThanOrEqual(56);
      expect(page.width - shape.box.right).toBeGreaterThanOrEqual(56);
      expect(page.height - shape.box.bottom).toBeGreaterThanOrEqual(48);
    }
  }
});
