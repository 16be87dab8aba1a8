import type { Line, Score } from "../score/score.ts";
import { boxAround, hundredths } from "./boxes.ts";
import { STAFF_HEIGHT } from "./drawing.ts";
import { headDrawing } from "./head-drawing.ts";
import { levelBars } from "./level-bars.ts";
import { MILLIMETRES, PAPER_SIZE, type PageDrawing, type Paper, type PlacedDrawing } from "./page-drawing.ts";
import { footerGroup, headerGroups } from "./page-words.ts";
import { type PartStyle, PLAIN_STYLE } from "./part-style.ts";
import { barWidths, mayBeRagged, pageFilling, type System, systemsOf } from "./systems.ts";

/** Paper left free all round: 15 mm. */
const MARGIN = 15 / MILLIMETRES;

/** Left of the staff, for bar numbers. */
const INDENT = 6;

/** Between the ink of one line of staff and the next, and least from staff to staff. */
const BETWEEN = 20;
const LEAST_PITCH = 84;

const FOOTER = 24;

const kept = new WeakMap<Score, Map<string, readonly PageDrawing[]>>();

/** The pages of one part, in natural spacing, ready for any painter. Kept as long as the score is. */
export function pagesOf(score: Score, line: Line, paper: Paper, style = PLAIN_STYLE): readonly PageDrawing[] {
  const known = kept.get(score) ?? new Map<string, readonly PageDrawing[]>();
  kept.set(score, known);
  const name = `${paper} ${style.charts} ${style.chords} ${line.id}`;
  const found = known.get(name);
  if (found !== undefined) return found;
  const made = makePages(score, line, paper, style);
  known.set(name, made);
  return made;
}

function makePages(score: Score, line: Line, paper: Paper, style: PartStyle): readonly PageDrawing[] {
  const [width, height] = PAPER_SIZE[paper].map((millimetres) => hundredths(millimetres / MILLIMETRES)) as [number, number];
  const right = width - MARGIN;
  const left = MARGIN + INDENT;
  const header = headerGroups(score, line, MARGIN, right, MARGIN);
  const room = right - left;
  const systems = systemsOf(score, line, (first) => room - headOf(score, line, first).width, pageFilling(line), style);
  const pages: PlacedDrawing[][] = [[]];
  let top = Math.max(...header.map(({ box }) => box.bottom)) + BETWEEN;
  let staff = Number.NEGATIVE_INFINITY;
  for (const system of systems) {
    const staves = systemDrawings(score, line, system, left, room, style);
    const box = boxAround(staves.map(({ drawing }) => drawing.box));
    let y = Math.max(top - box.top, staff + LEAST_PITCH);
    if (y + Math.max(box.bottom, STAFF_HEIGHT) > height - MARGIN - FOOTER && pages.at(-1)?.length !== 0) {
      pages.push([]);
      y = MARGIN - Math.min(box.top, 0);
    }
    y = hundredths(y);
    pages.at(-1)?.push(...staves.map((stave) => ({ ...stave, y })));
    top = y + box.bottom + BETWEEN;
    staff = y;
  }
  return pages.map((staves, index) => ({
    paper,
    width,
    height,
    staves,
    groups: [
      ...(index === 0 ? header : []),
      footerGroup(
        `${score.title === "" ? "Untitled" : score.title} · ${line.name} · revision ${score.revision} · page ${index + 1} of ${pages.length}`,
        width / 2,
        height - MARGIN + 8,
      ),
    ],
  }));
}

function headOf(score: Score, line: Line, first: number) {
  const [before, now] = [score.frames[first - 1]?.meter, score.frames[first]?.meter];
  return headDrawing(score, line, first, { meter: before?.beats !== now?.beats || before?.unit !== now?.unit, number: first > 0 });
}

/** Head and bars of one line of staff, y still 0. */
function systemDrawings(score: Score, line: Line, system: System, left: number, room: number, style: PartStyle): readonly PlacedDrawing[] {
  const head = headOf(score, line, system.first);
  const widths = barWidths(system, room - head.width, mayBeRagged(score, system));
  let x = left + head.width;
  const bars = levelBars(score, line, system, widths, style).map((drawing) => {
    const placed = { drawing, x: hundredths(x), y: 0 };
    x += drawing.width;
    return placed;
  });
  return [{ drawing: head, x: left, y: 0 }, ...bars];
}
