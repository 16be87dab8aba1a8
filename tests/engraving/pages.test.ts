import fc from "fast-check";
import { expect, test } from "vitest";
import { MILLIMETRES, PAPER_SIZE, type PageDrawing } from "../../src/engraving/page-drawing.ts";
import { pagesOf } from "../../src/engraving/pages.ts";
import { pageFilling, systemsOf } from "../../src/engraving/systems.ts";
import { newScore } from "../../src/score/new-score.ts";
import type { Line, PipeLine, Score } from "../../src/score/score.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { anyScore } from "../support/random-scores.ts";
import { gracedNote, pipeNote } from "../support/written-music.ts";

/** A tune of so many bars of four quarters with gracenotes, a section every eight bars. */
function tune(bars: number): Score {
  const empty = newScore({ title: "Paper Lantern Weather", bars });
  const pipes = empty.lines[0] as PipeLine;
  const events = [gracedNote(["high-g"], "low-a", 960), pipeNote("b", 960), gracedNote(["high-g", "d"], "c", 960), pipeNote("e", 960)];
  return {
    ...empty,
    frames: empty.frames.map((frame, bar) => ({ ...frame, section: bar % 8 === 0 ? { name: `Part ${bar / 8 + 1}`, letter: "" } : null })),
    lines: [{ ...pipes, bars: pipes.bars.map(() => ({ kind: "pipes", events: [...events] })) }],
  };
}

const words = (page: PageDrawing) => page.groups.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])));

test("a pipe tune has four bars to a line, and every section begins a line", () => {
  const score = tune(20);
  const systems = systemsOf(score, score.lines[0] as Line, () => 660, pageFilling(score.lines[0] as Line));
  expect(systems.map(({ first, last }) => [first, last])).toEqual([
    [0, 3],
    [4, 7],
    [8, 11],
    [12, 15],
    [16, 19],
  ]);
});

test("full lines end at one right margin, and each page says title, part, revision and its number", () => {
  const score = tune(120);
  const pages = pagesOf(score, score.lines[0] as Line, "a4");
  expect(pages.length).toBeGreaterThan(1);
  for (const [index, page] of pages.entries()) {
    expect(words(page)).toContain(`Paper Lantern Weather · Pipes · revision 0 · page ${index + 1} of ${pages.length}`);
    const ends = new Map<number, number>();
    for (const { drawing, x, y } of page.staves) ends.set(y, Math.max(ends.get(y) ?? 0, x + drawing.width));
    for (const end of ends.values()) expect(Math.abs(end - (page.width - 15 / MILLIMETRES))).toBeLessThan(0.2);
  }
});

test("the first page is headed with title, ensemble, tune type, makers, and how the part is written", () => {
  const score = lanternScore("B", "trumpet-bb", "fiddle");
  const heads = score.lines.map((line) => words(pagesOf(score, line, "letter")[0] as PageDrawing));
  for (const head of heads) {
    expect(head.slice(0, 4)).toEqual([
      "Paper Lantern Weather",
      "The Tin Observatory",
      "Slow air",
      "Mairi Quern, arranged by M. Quern & friends",
    ]);
  }
  expect(heads.map((head) => head[5])).toEqual([
    "written in A, no key signature",
    "sounds a tone lower, F♯ major",
    "concert pitch, E major",
  ]);
});

test("on any page of any part no ink leaves the paper and no line of staff runs into another", { timeout: PATIENCE }, () => {
  fc.assert(
    fc.property(anyScore({ repeats: true }), fc.constantFrom("a4" as const, "letter" as const), (score, paper) => {
      for (const line of score.lines) {
        const pages = pagesOf(score, line, paper);
        const bars = pages.flatMap(({ staves }) => staves);
        expect(bars.length).toBeGreaterThanOrEqual(score.frames.length + 1);
        for (const page of pages) expectOnPaper(page);
      }
    }),
    { seed: 29_700, numRuns: cases(80, 2_000) },
  );
});

function expectOnPaper(page: PageDrawing): void {
  const [width, height] = PAPER_SIZE[page.paper];
  expect([page.width * MILLIMETRES, page.height * MILLIMETRES]).toEqual([width, height]);
  const lines = new Map<number, { top: number; bottom: number }>();
  for (const { drawing, x, y } of page.staves) {
    expect(x + drawing.width).toBeLessThanOrEqual(page.width - 59.5);
    expect(y + drawing.box.top).toBeGreaterThanOrEqual(0);
    expect(y + drawing.box.bottom).toBeLessThanOrEqual(page.height);
    const line = lines.get(y) ?? { top: Number.POSITIVE_INFINITY, bottom: Number.NEGATIVE_INFINITY };
    lines.set(y, { top: Math.min(line.top, y + drawing.box.top), bottom: Math.max(line.bottom, y + drawing.box.bottom) });
  }
  let above = 0;
  for (const { top, bottom } of lines.values()) {
    expect(top).toBeGreaterThanOrEqual(above);
    above = bottom;
  }
}
