import fc from "fast-check";
import { expect, test } from "vitest";
import { boxAround, boxOf } from "../../src/engraving/boxes.ts";
import type { MarkGroup } from "../../src/engraving/drawing.ts";
import { MILLIMETRES, type PageDrawing, type PlacedDrawing } from "../../src/engraving/page-drawing.ts";
import { pagesOf } from "../../src/engraving/pages.ts";
import { PLAIN_STYLE } from "../../src/engraving/part-style.ts";
import type { Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { collisionsOf, inWords, placedMarks } from "../support/collisions.ts";
import { HARBOUR_TUNES, harbourSet } from "../support/harbour-set.ts";
import { anyScore } from "../support/random-scores.ts";
import { gracedNote, pipeNote, rest } from "../support/written-music.ts";

/** A line of staff on a page: which bars it has, where it stands, everything on it. */
interface Row {
  readonly page: number;
  readonly y: number;
  readonly bars: readonly { readonly first: number; readonly last: number }[];
  readonly staves: readonly PlacedDrawing[];
}

function rowsOf(pages: readonly PageDrawing[]): readonly Row[] {
  return pages.flatMap(({ staves }, page) =>
    [...new Set(staves.map(({ y }) => y))].map((y): Row => {
      const own = staves.filter((stave) => stave.y === y);
      return { page, y, bars: own.flatMap(({ bars }) => (bars === undefined ? [] : [bars])), staves: own };
    }),
  );
}

function lineOfSet(score: Score, id: string): Line {
  return score.lines.find((line) => line.id === id) as Line;
}

const wordsOf = (groups: readonly MarkGroup[]): readonly string[] =>
  groups.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])));

/** First and last bar of each line of staff. */
const spans = (rows: readonly Row[]) => rows.map(({ bars }) => [bars[0]?.first, bars.at(-1)?.last]);

const set = harbourSet();
const pipes = pagesOf(set, lineOfSet(set, "pipes"), "a4");

test("parts of eight bars stand four to a line, each on a new line with its pickup before its first bar", () => {
  expect(spans(rowsOf(pipes)).slice(0, 4)).toEqual([
    [0, 4],
    [5, 8],
    [9, 13],
    [14, 17],
  ]);
});

test("a second ending stands on the line of its first", () => {
  const rows = rowsOf(pipes);
  for (const ending of [26, 35]) {
    const row = rows.find(({ bars }) => bars.some(({ first }) => first === ending));
    expect(row?.bars.map(({ first }) => first)).toContain(ending - 1);
  }
});

test("a repeated part has its sign at both ends, the first after clef and meter", () => {
  const [head, pickup, first] = rowsOf(pipes)[0]?.staves ?? [];
  const last = rowsOf(pipes)[1]?.staves.at(-1);
  const dots = (stave: PlacedDrawing | undefined) =>
    stave?.drawing.groups.filter(({ role, marks }) => role === "bar-line" && marks.some(({ kind }) => kind === "glyph")).length;
  expect([head, pickup, first, last].map(dots)).toEqual([0, 0, 1, 1]);
});

test("each tune of a set has title, type and composer over its first line, and its meter and tempo anew", () => {
  const rows = rowsOf(pipes);
  for (const [index, first] of [0, 18, 48].entries()) {
    const row = rows.find(({ bars }) => bars[0]?.first === first) as Row;
    const { title, tuneType, composer } = HARBOUR_TUNES[index] as (typeof HARBOUR_TUNES)[number];
    const heading = pipes[row.page]?.groups.filter(({ box }) => box.bottom <= row.y && box.bottom > row.y - 100) ?? [];
    expect(wordsOf(heading).filter((words) => !["Pipes", "written in A, no key signature"].includes(words))).toEqual(
      [title, tuneType, composer].filter((words) => words !== ""),
    );
    const signs = row.staves[0]?.drawing.groups.filter(({ role }) => role === "signature").length;
    expect(signs).toBe(2);
    expect(wordsOf(row.staves.flatMap(({ drawing }) => drawing.groups)).some((words) => words.startsWith("= "))).toBe(true);
  }
  expect(wordsOf(pipes[0]?.groups ?? [])[0]).toBe("The Harbour Light Set");
});

test("a tune's heading is never alone with one line at the foot of a page, on either paper", () => {
  for (const paper of ["a4", "letter"] as const) {
    for (const line of set.lines) {
      const rows = rowsOf(pagesOf(set, line, paper));
      for (const [index, { bars, page }] of rows.entries()) {
        const next = rows[index + 1];
        if (![0, 18, 48].includes(bars[0]?.first ?? -1) || next === undefined || set.frames[next.bars[0]?.first ?? 0]?.tune !== null)
          continue;
        expect(next.page).toBe(page);
      }
    }
  }
});

test("twelve silent bars are eleven in one rest and a cue of whose line it is; the bag goes up in the last of them", () => {
  const row = rowsOf(pipes).find(({ bars }) => bars[0]?.first === 36) as Row;
  expect(row.bars).toEqual([
    { first: 36, last: 46 },
    { first: 47, last: 47 },
  ]);
  const [, gathered, cue] = row.staves;
  const figures = gathered?.drawing.groups
    .filter(({ role }) => role === "rest")
    .flatMap(({ marks }) => marks.filter(({ kind }) => kind === "glyph"));
  expect(figures?.map((mark) => ("code" in mark ? mark.code - 0xe080 : null))).toEqual([1, 1]);
  expect(wordsOf(cue?.drawing.groups ?? [])).toEqual(["bag up, cue: Fiddle"]);
  const heads = cue?.drawing.groups.flatMap(({ marks }) =>
    marks.flatMap((mark) => (mark.kind === "glyph" && mark.code === 0xe0a4 ? [mark] : [])),
  );
  expect(heads?.map(({ scale }) => scale)).toEqual([0.7, 0.7, 0.7, 0.7, 0.7, 0.7]);
});

test("in a short silence the bag goes up in the bar before the strike-in, said by its number over the rest", () => {
  const line = lineOfSet(set, "pipes");
  if (line.kind !== "pipes") throw new RangeError("pipes");
  const bars = line.bars.map((bar, index) => (index >= 42 && index < 48 ? { ...bar, events: line.bars[47]?.events ?? [] } : bar));
  const played = bars.map((bar, index) => (index >= 36 && index < 42 ? { ...bar, events: line.bars[35]?.events ?? [] } : bar));
  const score: Score = { ...set, lines: [{ ...line, bars: played }] };
  const rows = rowsOf(pagesOf(score, score.lines[0] as Line, "a4"));
  const stave = rows.flatMap(({ staves }) => staves).find(({ bars: own }) => own?.first === 42);
  expect(stave?.bars).toEqual({ first: 42, last: 47 });
  // The march's pickup is bar 0, so the bar before the jig, index 47, is bar 47.
  expect(wordsOf(stave?.drawing.groups ?? [])).toEqual(["bag up in bar 47"]);
});

test("gathered rests are broken at letters, repeats, endings, meters, tempos and tunes", () => {
  const rows = rowsOf(pagesOf(set, lineOfSet(set, "trumpet"), "a4"));
  expect(rows.flatMap(({ bars }) => bars.map(({ first, last }) => [first, last])).slice(0, 12)).toEqual([
    [0, 0],
    [1, 8],
    [9, 9],
    [10, 17],
    [18, 24],
    [25, 25],
    [26, 26],
    [27, 33],
    [34, 34],
    [35, 35],
    [36, 46],
    [47, 47],
  ]);
});

test("a part without a note keeps its empty bars", () => {
  const line = lineOfSet(set, "trumpet");
  if (line.kind !== "concert") throw new RangeError("trumpet");
  const silent: Line = { ...line, bars: line.bars.map(() => ({ kind: "own", events: [rest(3840)] })) };
  const score: Score = { ...set, frames: set.frames.map((one) => ({ ...one, short: null })), lines: [silent] };
  const rows = rowsOf(pagesOf(score, silent, "a4"));
  expect(rows.flatMap(({ bars }) => bars).every(({ first, last }) => first === last)).toBe(true);
});

test("a change of key or meter is announced at the end of the line before, but not before another tune", () => {
  const frames = set.frames.map((one) => ({ ...one, tune: null }));
  const score: Score = { ...set, frames };
  const endOf = (of: Score) => {
    const rows = rowsOf(pagesOf(of, lineOfSet(of, "fiddle"), "a4"));
    return rows.find(({ bars }) => bars.at(-1)?.last === 47)?.staves.at(-1);
  };
  expect(endOf(set)?.bars).toEqual({ first: 47, last: 47 });
  expect(endOf(score)?.bars).toBeUndefined();
  // Four flats, and the two figures of a meter in one group.
  expect(
    endOf(score)
      ?.drawing.groups.filter(({ role }) => role === "signature")
      .map(({ marks }) => marks.length),
  ).toEqual([4, 2]);
});

test("chords over a pipe part stand at written pitch, and the page says what written A sounds", () => {
  const [page] = pagesOf(set, lineOfSet(set, "pipes"), "a4", { ...PLAIN_STYLE, chords: true });
  expect(wordsOf(page?.groups ?? [])).toContain(
    "written in A, no key signature, chords at written pitch: on this chanter written A sounds B♭",
  );
  const chords = page?.staves.flatMap(({ drawing }) => drawing.groups.filter(({ role }) => role === "chord")) ?? [];
  expect(wordsOf(chords)).toEqual(["D", "D"]);
  expect(wordsOf(pipes[0]?.staves.flatMap(({ drawing }) => drawing.groups.filter(({ role }) => role === "chord")) ?? [])).toEqual([]);
});

test("a pipe part too dense for four bars to a line is set as much smaller as it needs to have them, all its signs alike", () => {
  const half = [
    gracedNote(["high-g"], "low-a", 720),
    pipeNote("b", 240),
    gracedNote(["high-g", "d"], "c", 240),
    gracedNote(["high-a"], "e", 720),
  ];
  const other = [gracedNote(["high-g"], "f", 720), pipeNote("e", 240), gracedNote(["high-g", "b", "d"], "b", 240), pipeNote("low-a", 720)];
  const dense = [...half, ...other];
  const line = lineOfSet(set, "pipes");
  if (line.kind !== "pipes") throw new RangeError("pipes");
  const frames = Array.from({ length: 16 }, () => ({ ...(set.frames[20] as Frame) }));
  const tune: Line = { ...line, bars: frames.map(() => ({ kind: "pipes", events: dense })) };
  const score: Score = { ...set, frames, lines: [tune] };
  const rows = rowsOf(pagesOf(score, tune, "a4"));
  expect(rows.map(({ bars }) => bars.length)).toEqual([4, 4, 4, 4]);
  const clefs = rows.map(
    ({ staves }) => staves[0]?.drawing.groups.flatMap(({ marks }) => marks.find(({ kind }) => kind === "glyph") ?? [])[0],
  );
  expect(clefs.map((mark) => (mark !== undefined && "scale" in mark ? mark.scale : 1))).toEqual([0.92, 0.92, 0.92, 0.92]);
  for (const { drawing } of rows.flatMap(({ staves }) => staves)) {
    for (const { marks, box } of drawing.groups) {
      const inked = boxAround(marks.map(boxOf));
      for (const edge of ["left", "top", "right", "bottom"] as const) expect(Math.abs(inked[edge] - box[edge])).toBeLessThan(0.25);
    }
  }
});

test("lines are spread down every page but the last, so that the lowest ink of each ends within 24 px of the same height", () => {
  const long: Score = {
    ...set,
    frames: Array(6).fill(set.frames.slice(0, 36)).flat(),
    lines: set.lines.map((line) => ({ ...line, bars: Array(6).fill(line.bars.slice(0, 36)).flat() })) as Score["lines"],
  };
  const pages = pagesOf(long, long.lines[0] as Line, "a4");
  expect(pages.length).toBeGreaterThan(3);
  for (const page of pages.slice(0, -1)) {
    const lowest = Math.max(...page.staves.map(({ drawing, y }) => y + drawing.box.bottom));
    expect(page.height - lowest).toBeLessThan(60 + 24 + 24);
  }
  const last = rowsOf(pages).filter(({ page }) => page === pages.length - 1);
  expect(last.length).toBeGreaterThan(1);
});

test("no two marks of the set collide, in any part, on either paper", () => {
  for (const line of set.lines) {
    for (const paper of ["a4", "letter"] as const) {
      for (const page of pagesOf(set, line, paper, { ...PLAIN_STYLE, chords: true }))
        expect(collisionsOf(placedMarks(page.staves, page.groups)).map(inWords)).toEqual([]);
    }
  }
});

/** A score several times over, with most bars of every line silent, so that rests are gathered and cues shown. */
const anySparseScore: fc.Arbitrary<Score> = fc
  .record({
    score: anyScore({ repeats: true }),
    times: fc.integer({ min: 2, max: 5 }),
    silent: fc.array(fc.boolean(), { minLength: 7, maxLength: 60 }),
  })
  .map(({ score, times, silent }) => {
    const frames = Array.from({ length: times }, () =>
      score.frames.map((one, bar) => (bar % 2 === 0 ? one : { ...one, section: null })),
    ).flat();
    const emptied = (bars: Line["bars"], shift: number) =>
      frames.map((one, bar) => {
        const own = bars[bar % score.frames.length] as Line["bars"][number];
        if (silent[(bar + shift) % silent.length] && own.kind !== "doubling") return { ...own, events: [rest(frameTicks(one))] };
        return own;
      });
    return { ...score, frames, lines: score.lines.map((line, shift) => ({ ...line, bars: emptied(line.bars, shift) })) as Score["lines"] };
  });

test("every bar of any part stands on exactly one line, in order, nothing collides, and no line is wider than its page", {
  timeout: PATIENCE,
}, () => {
  const either = fc.oneof(anyScore({ repeats: true }), anySparseScore);
  fc.assert(
    fc.property(either, fc.constantFrom("a4" as const, "letter" as const), (score, paper) => {
      for (const line of score.lines) {
        const pages = pagesOf(score, line, paper);
        const rows = rowsOf(pages);
        const bars = rows.flatMap((row) =>
          row.bars.flatMap(({ first, last }) => Array.from({ length: last - first + 1 }, (_, index) => first + index)),
        );
        expect(bars).toEqual([...score.frames.keys()]);
        for (const page of pages) {
          const right = page.width - 15 / MILLIMETRES + 0.5;
          for (const { drawing, x } of page.staves) expect(x + drawing.width).toBeLessThanOrEqual(right);
          expect(collisionsOf(placedMarks(page.staves, page.groups)).map(inWords)).toEqual([]);
          for (const { shape } of placedMarks(page.staves, page.groups)) {
            expect(shape.box.top).toBeGreaterThanOrEqual(0);
            expect(shape.box.bottom).toBeLessThanOrEqual(page.height);
          }
        }
      }
    }),
    { seed: 5_205, numRuns: cases(40, 2_000), endOnFailure: true },
  );
});
