import type { BarRange } from "../score/edit.ts";
import { STAFF_HEIGHT } from "./drawing.ts";

/** A line of staff as it takes part in filling pages. Lengths in desk pixels. */
export interface Block {
  /** Ink over the top staff line and under it, neither negative. */
  readonly above: number;
  readonly below: number;
  /** Of the tune's heading over it, with the air under it; 0 where none is. */
  readonly heading: number;
  /** More than usual over it where something new begins, as far as the page has it to spare. */
  readonly air: number;
  /** What it costs when a page begins with it: see `BREAK`. */
  readonly breakCost: number;
}

/** The paper that lines of staff may fill: from the top of the first page (under its header) or of any other, to the bottom. */
export interface PageRoom {
  readonly firstTop: number;
  readonly top: number;
  readonly bottom: number;
}

/** Costs of beginning a page: at a tune, a part, within a part, with a second ending, between a tune's heading and its second line. */
export const BREAK = { tune: -6, part: 0, within: 15, ending: 150, heading: 2000 } as const;

/** A turn at which the player has nothing to do costs so much less. */
export const SILENT_TURN = -8;

/** Between the ink of one line of staff and the next, and least from staff to staff. */
const BETWEEN = 20;
const LEAST_PITCH = 84;

/** Lines that stand closer than others are moved to this share of the usual distance first, so that all are even. */
const EVEN = 1.08;

/** All are then spread over the page, but each by no more than this share of the usual distance. A last page is not spread. */
const MOST_SPREAD = 0.35;

/** Of every page, so that no more are used than needed; of a last page with one line or two on it; of a page left empty. */
const PAGE = 60;
const FORLORN = [0, 45, 10];
const EMPTINESS = 120;

/** Which lines of staff stand on which page: first and last of each, both included. Those choices that cost least together. */
export function pageRanges(blocks: readonly Block[], room: PageRoom): readonly BarRange[] {
  const best: { readonly cost: number; readonly first: number }[] = [];
  for (let last = 0; last < blocks.length; last += 1) {
    let found = { cost: Number.POSITIVE_INFINITY, first: last };
    for (let first = last; first >= 0; first -= 1) {
      const own = costOfPage(blocks, { first, last }, room);
      if (own === null) break;
      const cost = own + (first === 0 ? 0 : (best[first - 1] as { readonly cost: number }).cost);
      if (cost < found.cost) found = { cost, first };
    }
    best.push(found);
  }
  const ranges: BarRange[] = [];
  for (let last = blocks.length - 1; last >= 0; ) {
    const { first } = best[last] as { readonly first: number };
    ranges.unshift({ first, last });
    last = first - 1;
  }
  return ranges;
}

/** Where the top staff line of each of a page's lines stands: evenly down the page, or, on the last page, at their own distance. */
export function staffHeights(blocks: readonly Block[], range: BarRange, room: PageRoom): readonly number[] {
  const own = distances(blocks, range);
  const headings = blocks.slice(range.first + 1, range.last + 1).map(({ heading }) => heading);
  const count = Math.max(1, own.length);
  const usual = sumOf(own) / count;
  const spare = Math.max(0, room.bottom - endOf(blocks, range, room));
  const even = evenDistances(own, spare, usual * EVEN);
  const airs = blocks.slice(range.first + 1, range.last + 1).map(({ air }) => air);
  const afterEven = Math.max(0, spare - (sumOf(even) - sumOf(own)));
  const airy = Math.min(1, afterEven / Math.max(1, sumOf(airs)));
  const left = afterEven - airy * sumOf(airs);
  const spread = range.last === blocks.length - 1 ? 0 : Math.min(left / count, usual * MOST_SPREAD);
  let y = startOf(blocks, range.first, room);
  return [y, ...even.map((distance, index) => (y += distance + spread + airy * (airs[index] as number) + (headings[index] as number)))];
}

/** The distances with the spare paper given to the closest first, none of them beyond `most`. */
function evenDistances(own: readonly number[], spare: number, most: number): readonly number[] {
  const raised = (pitch: number) => own.map((distance) => Math.max(distance, pitch));
  const used = (pitch: number) => sumOf(raised(pitch)) - sumOf(own);
  let [low, high] = [0, most];
  if (used(high) <= spare) return raised(high);
  for (let step = 0; step < 20; step += 1) {
    const middle = (low + high) / 2;
    if (used(middle) > spare) high = middle;
    else low = middle;
  }
  return raised(low);
}

function sumOf(lengths: readonly number[]): number {
  return lengths.reduce((sum, length) => sum + length, 0);
}

/** From each line of a page to the next, as close as they may stand, headings left out. */
function distances(blocks: readonly Block[], { first, last }: BarRange): readonly number[] {
  return blocks.slice(first + 1, last + 1).map(({ above }, index) => {
    const { below } = blocks[first + index] as Block;
    return Math.max(LEAST_PITCH, STAFF_HEIGHT + below + BETWEEN + above);
  });
}

function startOf(blocks: readonly Block[], first: number, { firstTop, top }: PageRoom): number {
  const { above, heading } = blocks[first] as Block;
  return (first === 0 ? firstTop : top) + heading + above;
}

function endOf(blocks: readonly Block[], range: BarRange, room: PageRoom): number {
  const headings = blocks.slice(range.first + 1, range.last + 1).reduce((sum, { heading }) => sum + heading, 0);
  const down = distances(blocks, range).reduce((sum, distance) => sum + distance, startOf(blocks, range.first, room));
  return down + headings + STAFF_HEIGHT + (blocks[range.last] as Block).below;
}

/** Null where the lines do not fit on one page; one alone always does. */
function costOfPage(blocks: readonly Block[], range: BarRange, room: PageRoom): number | null {
  const spare = room.bottom - endOf(blocks, range, room);
  const count = range.last - range.first + 1;
  if (spare < 0 && count > 1) return null;
  const turn = range.first === 0 ? 0 : (blocks[range.first] as Block).breakCost;
  if (range.last === blocks.length - 1) return PAGE + turn + (range.first === 0 ? 0 : (FORLORN[count] ?? 0));
  const emptiness = Math.max(0, spare) / (room.bottom - room.top);
  return PAGE + turn + EMPTINESS * emptiness ** 2;
}
