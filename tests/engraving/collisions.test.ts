import fc from "fast-check";
import { expect, test } from "vitest";
import { deskSheet } from "../../src/engraving/desk-sheet.ts";
import type { Box, Mark } from "../../src/engraving/drawing.ts";
import { engravedBar } from "../../src/engraving/engrave-part.ts";
import type { PageDrawing, PlacedDrawing } from "../../src/engraving/page-drawing.ts";
import { pagesOf } from "../../src/engraving/pages.ts";
import { type PartStyle, PLAIN_STYLE } from "../../src/engraving/part-style.ts";
import { screenWidths } from "../../src/engraving/screen-widths.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { collisionsOf, described, inWords, type MarkKind, type PlacedMark, placedMarks } from "../support/collisions.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";
import { overlap, shapeOf, shiftedShape } from "../support/ink-shapes.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { anyScore } from "../support/random-scores.ts";

const PAPERS = ["a4", "letter"] as const;
const STYLES: readonly PartStyle[] = [PLAIN_STYLE, { charts: "every-note", chords: true }];

/** The bars of a part side by side, as they stand under the grid. */
function deskOf(score: Score, line: Line): readonly PlacedDrawing[] {
  const widths = screenWidths(score);
  const { syllableBaseline, staffTop } = deskSheet(score, line);
  let x = 0;
  return score.frames.map((_, bar) => {
    const width = widths[bar] as number;
    const drawing = engravedBar(score, line, bar, {
      spacing: "desk",
      width,
      firstInSystem: bar === 0,
      lastInSystem: bar === score.frames.length - 1,
      syllableBaseline,
    });
    const placed = { drawing, x, y: staffTop };
    x += width;
    return placed;
  });
}

function expectNothingCollides(score: Score): void {
  const seen: string[] = [];
  const look = (where: string, marks: readonly PlacedMark[], paper: Box) => {
    for (const collision of collisionsOf(marks)) seen.push(`${where}: ${inWords(collision)}`);
    for (const mark of leaving(marks, paper)) seen.push(`${where}: ${described(mark)} leaves the paper`);
  };
  for (const line of score.lines) {
    look(`${line.name} on the desk`, placedMarks(deskOf(score, line)), { ...BOUNDLESS, top: 0, bottom: deskSheet(score, line).height });
    for (const style of line.kind === "pipes" ? STYLES : [PLAIN_STYLE]) {
      for (const paper of PAPERS) {
        for (const [index, page] of pagesOf(score, line, paper, style).entries()) {
          const { width, height } = page;
          const marks = placedMarks(page.staves, page.groups);
          look(`${line.name}, ${paper}, ${style.charts}, page ${index + 1}`, marks, { left: 0, top: 0, right: width, bottom: height });
        }
      }
    }
  }
  expect(seen.slice(0, 12)).toEqual([]);
}

/** The desk scrolls. */
const BOUNDLESS = { left: Number.NEGATIVE_INFINITY, right: Number.POSITIVE_INFINITY };

function leaving(marks: readonly PlacedMark[], paper: Box): readonly PlacedMark[] {
  return marks.filter(
    ({ shape: { box } }) => box.left < paper.left || box.top < paper.top || box.right > paper.right || box.bottom > paper.bottom,
  );
}

test.each(EXAMPLE_SKETCHES)(
  "no two marks collide in $file, on the desk or on paper, plain or for a learner, and none leaves its sheet",
  ({ text }) => {
    expectNothingCollides(scoreFromSavedForm(text));
  },
);

test.each(["A", "Bb", "B"] as const)(
  "no two marks collide where almost everything happens that a bar can hold, on a %s chanter",
  (chanter) => {
    expectNothingCollides(lanternScore(chanter, "trumpet-bb", "piano"));
  },
);

test("no two marks collide in any score, and nothing leaves its page or its sheet", { timeout: 3 * PATIENCE }, () => {
  fc.assert(
    fc.property(anyScore({ repeats: true }), (score) => expectNothingCollides(score)),
    { seed: 31_100, numRuns: cases(200, 3_000) },
  );
});

/** Every mark of the lantern score's pipe part on its first page. */
function lanternMarks(): readonly PlacedMark[] {
  const score = lanternScore("Bb");
  const page = pagesOf(score, score.lines[0] as Line, "a4")[0] as PageDrawing;
  return placedMarks(page.staves, page.groups);
}

/** The middle of the box around a mark's ink. */
function middleOf({ shape: { box } }: PlacedMark): readonly [number, number] {
  return [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
}

test.each([
  ["syllable", "stem"],
  ["hole chart", "gracenote stem"],
  ["words", "hole chart"],
  ["head", "head"],
  ["accidental", "gracenote head"],
  ["tie", "gracenote head"],
  ["beam", "head"],
  ["ending", "words"],
  ["dot", "head"],
] as const)("a %s that is shifted onto a %s is caught", (shifted: MarkKind, onto: MarkKind) => {
  const marks = lanternMarks();
  expect(collisionsOf(marks)).toEqual([]);
  const moving = marks.find(({ kind }) => kind === shifted) as PlacedMark;
  const target = marks.find(({ kind, group }) => kind === onto && group !== moving.group) as PlacedMark;
  const [[fromX, fromY], [toX, toY]] = [middleOf(moving), middleOf(target)];
  const moved: PlacedMark = { ...moving, group: { ...moving.group }, shape: shiftedShape(moving.shape, toX - fromX, toY - fromY) };
  const found = collisionsOf(marks.map((one) => (one === moving ? moved : one)));
  expect(found.some(({ one, other }) => [one, other].includes(moved) && [one, other].includes(target))).toBe(true);
});

test("a sloped beam and a tie are taken for their ink, not for the box around it", () => {
  const beam = shapeOf({ kind: "path", d: "M0 0L80 20L80 23L0 3Z" } satisfies Mark, 0, 0);
  const head = (x: number, y: number) => shapeOf({ kind: "glyph", code: 0xe0a4, x, y, scale: 1 }, 0, 0);
  expect(overlap(beam, head(60, 5))).toBe(false);
  expect(overlap(beam, head(60, 14))).toBe(true);
  const tie = shapeOf({ kind: "path", d: "M0 0C10 -10 50 -10 60 0C50 -8 10 -8 0 0Z" }, 0, 0);
  expect(overlap(tie, head(26, 0))).toBe(false);
  expect(overlap(tie, head(26, -6))).toBe(true);
});
