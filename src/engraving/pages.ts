import type { BarRange } from "../score/edit.ts";
import type { Frame, Tune } from "../score/frame.ts";
import type { Line, Score } from "../score/score.ts";
import { boxAround, hundredths } from "./boxes.ts";
import type { BarDrawing, MarkGroup } from "./drawing.ts";
import { STAFF_HEIGHT } from "./drawing.ts";
import { courtesyDrawing, pageHead } from "./head-drawing.ts";
import { levelBars } from "./level-bars.ts";
import { type Block, BREAK, type PageRoom, pageRanges, SILENT_TURN, staffHeights } from "./page-breaks.ts";
import { MILLIMETRES, PAPER_SIZE, type PageDrawing, type Paper, type PlacedDrawing } from "./page-drawing.ts";
import { footerGroup, headerGroups, titleOf, tuneGroups } from "./page-words.ts";
import { beginsPart, isPickup } from "./part-breaks.ts";
import { type PartStyle, PLAIN_STYLE } from "./part-style.ts";
import { scaledDrawing } from "./scaled-drawing.ts";
import { isSilent } from "./silence.ts";
import { barWidths, pageFilling, type System, systemsOf } from "./systems.ts";

/** Paper left free all round: 15 mm. */
const MARGIN = 15 / MILLIMETRES;

/** Left of the staff, for bar numbers. */
const INDENT = 6;

/** Under a header, and over and under the heading of a tune. */
const UNDER_HEADER = 20;
const OVER_TUNE = 16;
const UNDER_TUNE = 12;

/** A part stands a little off from the one before. */
const OVER_PART = 8;

const FOOTER = 24;

const kept = new WeakMap<Score, Map<string, readonly PageDrawing[]>>();

/** The pages of one part, in natural spacing, ready for any painter. Kept as long as the score is. */
export function pagesOf(score: Score, line: Line, paper: Paper, style: PartStyle = PLAIN_STYLE): readonly PageDrawing[] {
  const known = kept.get(score) ?? new Map<string, readonly PageDrawing[]>();
  kept.set(score, known);
  const name = `${paper} ${style.charts} ${style.chords} ${line.id}`;
  const found = known.get(name);
  if (found !== undefined) return found;
  const made = makePages(score, line, paper, style);
  known.set(name, made);
  return made;
}

/** A line of staff with everything on it, y still 0, and how it stands to those around it. */
interface Row {
  readonly system: System;
  readonly staves: readonly PlacedDrawing[];
  readonly block: Block;
  readonly tune: Tune | null;
}

function makePages(score: Score, line: Line, paper: Paper, style: PartStyle): readonly PageDrawing[] {
  const [width, height] = PAPER_SIZE[paper].map((millimetres) => hundredths(millimetres / MILLIMETRES)) as [number, number];
  const [left, right] = [MARGIN, width - MARGIN];
  const header = headerGroups(score, line, style, left, right, MARGIN);
  const rows = rowsOf(score, line, style, left, right);
  const room: PageRoom = {
    firstTop: Math.max(...header.map(({ box }) => box.bottom)) + UNDER_HEADER,
    top: MARGIN,
    bottom: height - MARGIN - FOOTER,
  };
  const blocks = rows.map(({ block }) => block);
  const ranges = pageRanges(blocks, room);
  return ranges.map((range, index): PageDrawing => {
    const ys = staffHeights(blocks, range, room).map(hundredths);
    const here = rows.slice(range.first, range.last + 1);
    const footer = `${titleOf(score)} · ${line.name} · revision ${score.revision} · page ${index + 1} of ${ranges.length}`;
    return {
      paper,
      width,
      height,
      staves: here.flatMap(({ staves }, place) => staves.map((stave) => ({ ...stave, y: ys[place] as number }))),
      groups: [
        ...(index === 0 ? header : []),
        ...here.flatMap((row, place) => headingOf(row, left, right, ys[place] as number)),
        footerGroup(footer, width / 2, height - MARGIN + 8),
      ],
    };
  });
}

/** Where the bars of a part stand, and how large: lengths on the page are the drawings' own times `size`. */
interface Layout {
  readonly size: number;
  readonly systems: readonly System[];
  /** What a line of these bars leaves for them, in the drawings' own lengths. */
  readonly roomFor: (first: number, last: number) => number;
}

/** Instead of a staff of 7 mm one of 6.4 or 6, as pipers' books have them (from memory). */
const SMALLER = [0.92, 0.86];

/** A line of staff fewer is worth so much of its size: of ten lines, one for each 8 % or so. */
const WORTH_OF_SIZE = 0.9;

/** The part in full size; a pipe part smaller where more lines then have their four bars. */
function layoutOf(score: Score, line: Line, style: PartStyle, room: number): Layout {
  const heads = new Map<number, number>();
  const headWidth = (first: number) => {
    const width = heads.get(first) ?? pageHead(score, line, first).width;
    heads.set(first, width);
    return width;
  };
  const filling = pageFilling(line);
  const atSize = (size: number): Layout => {
    const roomFor = (first: number, last: number) => room / size - headWidth(first) - (courtesyDrawing(score, line, last)?.width ?? 0);
    return { size, roomFor, systems: systemsOf(score, line, roomFor, filling, style) };
  };
  const full = atSize(1);
  if (filling.wanted === null || !isCrowded(full.systems, filling.wanted)) return full;
  const costOf = ({ size, systems }: Layout) => systems.length * (1 + WORTH_OF_SIZE * (1 - size));
  return SMALLER.map(atSize).reduce((best, layout) => (costOf(layout) < costOf(best) ? layout : best), full);
}

/** Whether lines within a part have fewer bars than they should. */
function isCrowded(systems: readonly System[], wanted: number): boolean {
  return systems.some(({ stretches, endsPart }) => !endsPart && stretches.length < wanted);
}

function rowsOf(score: Score, line: Line, style: PartStyle, left: number, right: number): readonly Row[] {
  const layout = layoutOf(score, line, style, right - left - INDENT);
  return layout.systems.map((system, index): Row => {
    const staves = systemDrawings(score, line, system, left + INDENT, layout, style);
    const box = boxAround(staves.map(({ drawing }) => drawing.box));
    const tune = tuneOf(score.frames, system);
    const block = {
      above: Math.max(0, -box.top),
      below: Math.max(0, box.bottom - STAFF_HEIGHT),
      heading: tune === null ? 0 : headingHeight(tune, left, right) + (index === 0 ? 0 : OVER_TUNE),
      air: index > 0 && beginsPart(score.frames, system.first) ? OVER_PART : 0,
      breakCost: breakCost(score, line, system, layout.systems[index - 1]),
    };
    return { system, staves, block, tune };
  });
}

/** Head, bars and courtesy signature of one line of staff, y still 0. */
function systemDrawings(
  score: Score,
  line: Line,
  system: System,
  left: number,
  { size, roomFor }: Layout,
  style: PartStyle,
): readonly PlacedDrawing[] {
  const placed: PlacedDrawing[] = [];
  let x = left;
  const put = (drawing: BarDrawing, bars?: BarRange) => {
    const here = { drawing: scaledDrawing(drawing, size), x: hundredths(x), y: 0 };
    placed.push(bars === undefined ? here : { ...here, bars });
    x += drawing.width * size;
  };
  put(pageHead(score, line, system.first));
  const widths = barWidths(system, roomFor(system.first, system.last), system.mayBeRagged);
  for (const [index, drawing] of levelBars(score, line, system, widths, style).entries()) {
    const { first, last } = system.stretches[index] as BarRange;
    put(drawing, { first, last });
  }
  const courtesy = courtesyDrawing(score, line, system.last);
  if (courtesy !== null) put(courtesy);
  return placed;
}

/** The tune that begins with a line of staff. */
function tuneOf(frames: readonly Frame[], { first }: BarRange): Tune | null {
  return frames[first]?.tune ?? (isPickup(frames, first) ? (frames[first + 1]?.tune ?? null) : null);
}

function headingHeight(tune: Tune, left: number, right: number): number {
  const groups = tuneGroups(tune, left, right, 0);
  return groups.length === 0 ? 0 : Math.max(...groups.map(({ box }) => box.bottom)) + UNDER_TUNE;
}

function headingOf({ tune, block }: Row, left: number, right: number, y: number): readonly MarkGroup[] {
  return tune === null ? [] : tuneGroups(tune, left, right, y - block.above - headingHeight(tune, left, right));
}

/** What it costs to begin a page with a line of staff. */
function breakCost(score: Score, line: Line, { first }: System, before: System | undefined): number {
  if (before === undefined) return 0;
  const { frames } = score;
  if (tuneOf(frames, before) !== null && tuneOf(frames, { first, last: first }) === null) return BREAK.heading;
  const turn = isSilent(score, line, before.last) || isSilent(score, line, first) ? SILENT_TURN : 0;
  if (tuneOf(frames, { first, last: first }) !== null) return BREAK.tune + turn;
  if (frames[first]?.ending === 2) return BREAK.ending + turn;
  return (beginsPart(frames, first) || frames[before.last]?.repeatEnd ? BREAK.part : BREAK.within) + turn;
}
