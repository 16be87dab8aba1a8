import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { applyEdit } from "../../src/editing/apply-edit.ts";
import { boxOf } from "../../src/engraving/boxes.ts";
import type { BarDrawing, Box, GlyphMark, LineMark, MarkGroup, TextMark } from "../../src/engraving/drawing.ts";
import { engravedBar } from "../../src/engraving/engrave-part.ts";
import { pagesOf } from "../../src/engraving/pages.ts";
import { barContextOf } from "../../src/engraving/part-facts.ts";
import { screenWidths } from "../../src/engraving/screen-widths.ts";
import { eventsOf } from "../../src/score/doubling.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { newScore } from "../../src/score/new-score.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { ConcertLine, Line, PipeLine, Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { glyphs } from "../support/drawing-reading.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { anyScore } from "../support/random-scores.ts";
import { concertNote, pipeNote, rest } from "../support/written-music.ts";

const HEADS = [0xe0a2, 0xe0a3, 0xe0a4];

function drawn(score: Score, line: Line, bar: number): BarDrawing {
  const width = screenWidths(score)[bar] as number;
  return engravedBar(score, line, bar, { spacing: "desk", width, firstInSystem: bar === 0, lastInSystem: false });
}

/** Every bar of every line of any score, one after the other. */
function everyBar(law: (drawing: BarDrawing, score: Score, line: Line, bar: number) => void): void {
  fc.assert(
    fc.property(anyScore({ repeats: true }), (score) => {
      for (const line of score.lines) for (const bar of score.frames.keys()) law(drawn(score, line, bar), score, line, bar);
    }),
    { seed: 20_480, numRuns: cases(120, 3_000) },
  );
}

function headsOf(group: MarkGroup) {
  return glyphs(group).filter(({ code }) => HEADS.includes(code));
}

const isNumber = (value: unknown): value is number => typeof value === "number";

describe("any bar", { timeout: PATIENCE }, () => {
  test("draws every event at its own moment, and nothing at any other", () => {
    everyBar((drawing, score, line, bar) => {
      const events = placedEvents({ events: eventsOf(score, line, bar) });
      const signs = drawing.groups.filter(({ role }) => role === "note" || role === "rest");
      expect(new Set(signs.map(({ role, at }) => `${role} ${at}`))).toEqual(new Set(events.map(({ at, event }) => `${event.kind} ${at}`)));
      for (const group of drawing.groups)
        if (group.at !== null && group.role !== "chord") expect(events.map(({ at }) => at)).toContain(group.at);
    });
  });

  test("keeps its ink in its boxes, between its bar lines but for a tie that goes on", () => {
    everyBar((drawing) => {
      for (const group of drawing.groups) {
        for (const mark of group.marks) {
          const box = boxOf(mark);
          expect(box.left).toBeGreaterThanOrEqual(group.box.left);
          expect(box.right).toBeLessThanOrEqual(group.box.right);
        }
        expect(group.box.top).toBeGreaterThanOrEqual(drawing.box.top);
        expect(group.box.bottom).toBeLessThanOrEqual(drawing.box.bottom);
        if (group.role === "note" || group.role === "gracenotes" || group.role === "rest") {
          // Ledger lines reach 2 px past a head.
          expect(group.box.left).toBeGreaterThanOrEqual(-1);
          expect(group.box.right).toBeLessThanOrEqual(drawing.width + 3);
        }
      }
    });
  });

  test("has every number finite and no more exact than a hundredth of a pixel", () => {
    everyBar((drawing) => {
      const numbers = drawing.groups.flatMap(({ marks }) => marks.flatMap((mark) => Object.values(mark).filter(isNumber)));
      expect(numbers.filter((value) => !(Math.abs(value * 100 - Math.round(value * 100)) < 1e-6))).toEqual([]);
      expect(structuredClone(drawing)).toEqual(drawing);
    });
  });

  test("stands under the grid: heads after the first are at most 14 px from their moment, in a width of 96 px or more in steps of 24", () => {
    everyBar((drawing, score, line, bar) => {
      const frame = score.frames[bar];
      if (frame === undefined) throw new RangeError("no frame");
      expect(drawing.width).toBeGreaterThanOrEqual(96);
      expect((drawing.width - 96) % 24).toBe(0);
      const seen = new Set<number>();
      for (const { at, event } of placedEvents({ events: eventsOf(score, line, bar) })) {
        const group = drawing.groups.find((one) => one.at === at && one.role === "note");
        if (event.kind === "rest" || group === undefined || at === 0 || seen.has(at)) continue;
        seen.add(at);
        // A second in a chord puts one head on the other side of the stem, 8 px away.
        const xs = headsOf(group).map(({ x }) => x);
        const off = Math.min(...xs.map((x) => Math.abs(x - (drawing.width * at) / frameTicks(frame))));
        expect(off).toBeLessThanOrEqual(14.01);
      }
    });
  });
});

describe("a bar of the pipe part", { timeout: PATIENCE }, () => {
  function everyPipeBar(law: (drawing: BarDrawing, events: ReturnType<typeof placedEvents>) => void): void {
    everyBar((drawing, score, line, bar) => {
      if (line.kind === "pipes") law(drawing, placedEvents({ events: eventsOf(score, line, bar) }));
    });
  }

  test("has the stems of its melody down, and those of its gracenotes up", () => {
    everyPipeBar((drawing) => {
      for (const group of drawing.groups) {
        if (group.role !== "note" && group.role !== "gracenotes") continue;
        const stems = group.marks.filter((mark): mark is LineMark => mark.kind === "line" && mark.x1 === mark.x2);
        const heads = headsOf(group).map(({ y }) => y);
        for (const stem of stems) {
          if (group.role === "note") expect(Math.max(stem.y1, stem.y2)).toBeGreaterThan(Math.max(...heads) + 12);
          else expect(Math.min(stem.y1, stem.y2)).toBeLessThanOrEqual(Math.min(...heads) - 14);
        }
      }
    });
  });

  test("has its gracenotes close before their note: 1 to 7 px from it or its accidental, and clear of the note before", () => {
    everyPipeBar((drawing) => {
      const signs = drawing.groups.filter(({ role }) => role === "note" || role === "rest" || role === "gracenotes");
      for (const [index, group] of signs.entries()) {
        if (group.role !== "gracenotes") continue;
        const heads = glyphs(group).filter(({ code }) => code === 0xe0a4);
        const right = Math.max(...heads.map(({ x }) => x + 8.26 * 0.66));
        const note = signs.slice(index).find((one) => one.role === "note" && one.at === group.at);
        if (note === undefined) throw new RangeError("gracenotes without a note");
        const left = Math.min(...glyphs(note).map(({ x }) => x));
        expect(left - right).toBeGreaterThanOrEqual(1);
        expect(left - right).toBeLessThanOrEqual(7);
        const before = signs.slice(0, index).findLast((one) => one.role !== "gracenotes");
        if (before === undefined) continue;
        const end = Math.max(
          ...glyphs(before)
            .map((glyph) => boxOf(glyph))
            .filter((_, place) => HEADS.includes(glyphs(before)[place]?.code ?? 0))
            .map((box) => box.right),
        );
        expect(Math.min(...heads.map(({ x }) => x)) - end).toBeGreaterThanOrEqual(1);
      }
    });
  });
});

test("one chart stands over the first of several cross-fingered notes, and none where the bar before had it", () => {
  const score = lanternScore("B");
  const pipes = score.lines[0] as Line;
  for (const bar of score.frames.keys()) {
    const here = eventsOf(score, pipes, bar);
    const before = bar === 0 ? [] : eventsOf(score, pipes, bar - 1);
    const crossed = (events: typeof here) =>
      new Set(
        events.flatMap((event) => ("note" in event && ["c-natural", "f-natural", "high-g-sharp"].includes(event.note) ? [event.note] : [])),
      );
    const wanted = [...crossed(here)].filter((note) => !crossed(before).has(note)).length;
    const charts = drawn(score, pipes, bar).groups.filter(({ role }) => role === "holes");
    expect(charts).toHaveLength(wanted);
    for (const chart of charts) expect(chart.marks).toHaveLength(8);
  }
});

test("in a learner's part every note has its chart upright under it, at one height in a line; a note held on and a gracenote have none", () => {
  const score = lanternScore("B");
  const pipes = score.lines[0] as PipeLine;
  const charts = pagesOf(score, pipes, "a4", { charts: "every-note", chords: false }).flatMap(({ staves }) =>
    staves.flatMap(({ drawing, x, y }) => drawing.groups.filter(({ role }) => role === "holes").map((group) => ({ group, drawing, x, y }))),
  );
  const struck = pipes.bars.flatMap(({ events }) => events).filter((event) => event.kind === "note").length - 1;
  expect(charts).toHaveLength(struck);
  const tops = new Map<number, Set<number>>();
  for (const { group, drawing, y } of charts) {
    expect(group.marks).toHaveLength(8);
    expect(group.box.top).toBeGreaterThan(28);
    const note = drawing.groups.find((one) => one.role === "note" && one.at === group.at) as MarkGroup;
    const head = boxOf(headsOf(note)[0] as GlyphMark);
    expect((group.box.left + group.box.right) / 2).toBeCloseTo((head.left + head.right) / 2, 1);
    tops.set(y, (tops.get(y) ?? new Set()).add(group.box.top));
  }
  for (const heights of tops.values()) expect(heights.size).toBe(1);
});

test("asking again gives the identical drawing, and an edit of one bar leaves every bar but its neighbours the identical one", () => {
  const score = lanternScore("Bb");
  const edited = applyEdit(score, { kind: "gracenotes", at: { line: "pipes", bar: 1, at: ticks(0) }, gracenotes: ["high-g", "e"] });
  if (!edited.ok) throw new RangeError(edited.reason);
  for (const [place, line] of score.lines.entries()) {
    const after = edited.value.lines[place] as Line;
    for (const bar of score.frames.keys()) {
      expect(drawn(score, line, bar)).toBe(drawn(score, line, bar));
      if (bar === 1) continue;
      expect(drawn(edited.value, after, bar)).toBe(drawn(score, line, bar));
    }
  }
  const [pipes, pipesAfter] = [score.lines[0], edited.value.lines[0]] as [Line, Line];
  expect(drawn(edited.value, pipesAfter, 1)).not.toBe(drawn(score, pipes, 1));
});

test("a hyphen stands in the middle of the gap between its syllables, and of what is left of the bar after its last", () => {
  const empty = newScore({ title: "Rain on Tin", bars: 1 });
  const pipes = empty.lines[0] as PipeLine;
  const sung = (text: string, hyphen: boolean) => pipeNote("b", 960, { syllables: [{ text, hyphen }] });
  const events = [sung("lan", true), sung("tern", false), pipeNote("c", 960), sung("wea", true)];
  const score: Score = { ...empty, lines: [{ ...pipes, bars: [{ kind: "pipes", events }] }] };
  for (const spacing of ["desk", "page"] as const) {
    const drawing = engravedBar(score, score.lines[0] as Line, 0, { spacing, width: 312, firstInSystem: true, lastInSystem: true });
    const marks = drawing.groups.filter(({ role }) => role === "syllable").flatMap((group) => group.marks as readonly TextMark[]);
    expect(marks.map(({ text }) => text)).toEqual(["lan", "-", "tern", "wea", "-"]);
    expect(new Set(marks.map(({ y }) => y)).size).toBe(1);
    const [lan, first, tern, wea, second] = marks.map(boxOf) as [Box, Box, Box, Box, Box];
    const middle = ({ left, right }: Box) => (left + right) / 2;
    expect(middle(first)).toBeCloseTo((lan.right + tern.left) / 2, 1);
    expect(middle(second)).toBeCloseTo((wea.right + 312) / 2, 1);
    expect(first.left).toBeGreaterThan(lan.right);
  }
});

test("a player is told where he begins to double the pipes, and where a line of his own begins after that", () => {
  const score = lanternScore("B");
  const doubling = { kind: "doubling", of: "pipes", octaves: 0 } as const;
  const own = { kind: "own", events: [concertNote("C4", 3840)] } as const;
  const silent = { kind: "own", events: [rest(3840)] } as const;
  const frames = [0, 1, 2, 3, 4, 5, 6].map(() => score.frames[3] as Score["frames"][number]);
  const line: ConcertLine = { ...(score.lines[2] as ConcertLine), bars: [own, doubling, doubling, silent, own, own, doubling] };
  const pipes = score.lines[0] as PipeLine;
  const whole = { ...score, frames, lines: [{ ...pipes, bars: frames.map(() => pipes.bars[3] as PipeLine["bars"][number]) }, line] };
  const place = { spacing: "page", width: 200, firstInSystem: false, lastInSystem: false } as const;
  expect(frames.map((_, bar) => barContextOf(whole, line, bar, place).directions)).toEqual([
    "",
    "with the pipes",
    "",
    "",
    "own line",
    "",
    "with the pipes",
  ]);
});
