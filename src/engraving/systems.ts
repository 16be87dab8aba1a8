import type { BarRange } from "../score/edit.ts";
import type { Frame } from "../score/frame.ts";
import type { Line, Score } from "../score/score.ts";
import { hundredths } from "./boxes.ts";
import { beginsLine, isPickup } from "./part-breaks.ts";
import { type PartStyle, PLAIN_STYLE } from "./part-style.ts";
import { isSilent } from "./silence.ts";
import { stretchWidths, type Widths } from "./stretch-drawing.ts";
import { type Stretch, singleBars, stretchesOf } from "./stretches.ts";

/** The bars that stand on one line of staff: first and last, both included, and how wide each stretch of them is by itself. */
export interface System extends BarRange {
  /** Its bars in order, silent ones gathered where that was asked for. */
  readonly stretches: readonly Stretch[];
  /** Of each stretch, when nothing stretches or presses it. */
  readonly natural: readonly number[];
  /** Whether it is the last of its part. */
  readonly endsPart: boolean;
  /** Whether it may stay shorter than the paper: it is a part's last and has fewer bars than the line before. */
  readonly mayBeRagged: boolean;
}

/** How full lines are made. */
export interface Filling {
  /** So many bars a line wants; null: as many as stand in it at ease. */
  readonly wanted: number | null;
  /** No more bars than this, pickups and second endings left out. */
  readonly most: number;
  /** Pressed: so many bars as can be pressed into the line. Easy: so many as stand in it at ease. */
  readonly manner: "pressed" | "easy";
  /** Whether silent bars are gathered into one rest. */
  readonly gathers: boolean;
}

/** Tunes for the pipes are read four bars to a line (common practice); other players' lines are filled, but no fuller than six. */
export function pageFilling(line: Line): Filling {
  return line.kind === "pipes"
    ? { wanted: 4, most: 6, manner: "pressed", gathers: true }
    : { wanted: null, most: 6, manner: "easy", gathers: true };
}

/** On a phone two bars stand side by side where they can. */
export const PHONE_FILLING: Filling = { wanted: 2, most: 2, manner: "pressed", gathers: false };

/**
 * Parts the bars into lines of staff: those of each part together, so that the lines are even, phrases stay whole, and no ending stands alone
 * if that can be helped. `room` is what a line of these bars leaves for them.
 */
export function systemsOf(
  score: Score,
  line: Line,
  room: (first: number, last: number) => number,
  filling: Filling,
  style: PartStyle = PLAIN_STYLE,
): readonly System[] {
  const stretches = filling.gathers ? stretchesOf(score, line) : singleBars(score);
  const place = { spacing: "page", width: 0, firstInSystem: false, lastInSystem: false, style } as const;
  const items = stretches.map((stretch): Item => ({ stretch, widths: stretchWidths(score, line, stretch, place) }));
  const systems: System[] = [];
  for (const part of partsOf(score, line, items)) systems.push(...linesOfPart(score.frames, part, room, filling));
  return systems;
}

/** What begins a line together with all up to what begins the next. Parts in which a player has nothing to do follow each other on one line. */
function partsOf(score: Score, line: Line, items: readonly Item[]): readonly (readonly Item[])[] {
  const parts: Item[][] = [];
  for (const item of items) {
    const part = parts.at(-1);
    if (part === undefined || beginsLine(score.frames, item.stretch.first)) parts.push([item]);
    else part.push(item);
  }
  const isIdle = (part: readonly Item[]) => part.every(({ stretch: { first, cue } }) => cue === null && isSilent(score, line, first));
  return parts.reduce<Item[][]>((joined, part) => {
    const before = joined.at(-1);
    const joins = before !== undefined && isIdle(before) && isIdle(part) && score.frames[(part[0] as Item).stretch.first]?.tune === null;
    if (joins) before.push(...part);
    else joined.push(part);
    return joined;
  }, []);
}

/** A line with less in it than this share is opened up a little rather than pulled apart. */
const RAGGED = 0.62;
const RAGGED_STRETCH = 1.25;

/** Each stretch's share of its line, by its natural width. */
export function barWidths({ natural }: System, room: number, ragged: boolean): readonly number[] {
  const sum = natural.reduce((total, width) => total + width, 0);
  const stretch = ragged && sum < room * RAGGED ? Math.min(RAGGED_STRETCH, room / sum) : room / sum;
  return natural.map((width) => hundredths(width * stretch));
}

interface Item {
  readonly stretch: Stretch;
  readonly widths: Widths;
}

/** The lines of one part that cost least together. */
function linesOfPart(
  frames: readonly Frame[],
  items: readonly Item[],
  room: (first: number, last: number) => number,
  filling: Filling,
): readonly System[] {
  // `best[n]`: what the first n stretches cost on their lines, and how many stretches the last of these has.
  const best: { readonly cost: number; readonly count: number }[] = [{ cost: 0, count: 0 }];
  for (let end = 1; end <= items.length; end += 1) {
    let found = { cost: Number.POSITIVE_INFINITY, count: 1 };
    for (let count = 1; count <= end; count += 1) {
      const chosen = items.slice(end - count, end);
      const fitting = costOfLine(frames, items, end - count, end, room(firstBar(chosen), lastBar(chosen)), filling);
      if (fitting === null) break;
      const cost = (best[end - count] as { readonly cost: number }).cost + fitting;
      if (cost < found.cost) found = { cost, count };
    }
    best.push(found);
  }
  const systems: System[] = [];
  const others = items.slice(0, items.length - (best[items.length]?.count ?? 0));
  const usual = others.length === 0 ? (filling.wanted ?? filling.most) : countOf(frames, others.slice(-(best[others.length]?.count ?? 0)));
  for (let end = items.length; end > 0; ) {
    const { count } = best[end] as { readonly count: number };
    const chosen = items.slice(end - count, end);
    systems.unshift({
      first: firstBar(chosen),
      last: lastBar(chosen),
      stretches: chosen.map(({ stretch }) => stretch),
      natural: chosen.map(({ widths }) => widths.natural),
      endsPart: end === items.length,
      mayBeRagged: end === items.length && countOf(frames, chosen) < usual,
    });
    end -= count;
  }
  return systems;
}

function firstBar(items: readonly Item[]): number {
  return (items[0] as Item).stretch.first;
}

function lastBar(items: readonly Item[]): number {
  return (items.at(-1) as Item).stretch.last;
}

/** Bars still stand at ease in a line that is so many times as full as by themselves. */
const AT_EASE = 1.15;

/** What it costs to have the stretches from `from` up to `to` on one line; null where they do not fit. One alone always does. */
function costOfLine(
  frames: readonly Frame[],
  items: readonly Item[],
  from: number,
  to: number,
  room: number,
  filling: Filling,
): number | null {
  const chosen = items.slice(from, to);
  const natural = chosen.reduce((sum, { widths }) => sum + widths.natural, 0);
  const pressed = chosen.reduce((sum, { widths }) => sum + widths.pressed, 0);
  const count = countOf(frames, chosen);
  const fits = pressed <= room && (filling.manner === "pressed" || natural <= room * AT_EASE);
  if (chosen.length > 1 && (count > filling.most || !fits)) return null;
  const isLast = to === items.length;
  const crowded = 10 * Math.max(0, natural / room - 1);
  const shape = filling.wanted === null ? costOfFilling(natural / room, count, isLast) : costOfCount(count, filling.wanted, isLast);
  return shape + crowded + (from === 0 ? 0 : costOfBreak(frames, firstBar(chosen), firstBar(items)));
}

/** Bars as a reader counts them: no pickup, and no second ending whose first stands on the same line. */
function countOf(frames: readonly Frame[], items: readonly Item[]): number {
  const hasFirstEnding = items.some(({ stretch }) => frames[stretch.first]?.ending === 1);
  return items.filter(({ stretch: { first } }) => !isPickup(frames, first) && !(hasFirstEnding && frames[first]?.ending === 2)).length;
}

/** A line of another number of bars than was wanted; a bar all alone at the end of a part looks forgotten. */
function costOfCount(count: number, wanted: number, isLast: boolean): number {
  const over = count - wanted;
  if (over > 0) return 5 * over ** 2;
  if (isLast && over < 0) return count <= 1 && wanted > 2 ? 12 : -over;
  return 4 * over ** 2;
}

/** A line with paper to spare. */
function costOfFilling(filled: number, count: number, isLast: boolean): number {
  const spare = 60 * Math.max(0, 1 - filled) ** 2;
  return isLast ? spare / 2 + (count <= 1 ? 12 : 0) : spare;
}

/** Endings of no more bars than this look lost at the beginning of a line. */
const SHORT_ENDING = 2;

/** A line that begins inside a phrase, or with an ending that has lost what it ends. */
function costOfBreak(frames: readonly Frame[], bar: number, partFirst: number): number {
  const ending = frames[bar]?.ending ?? null;
  if (ending !== null) {
    const before = frames[bar - 1]?.ending ?? null;
    if (before === ending && !frames[bar - 1]?.repeatEnd) return 3;
    let length = 1;
    while (frames[bar + length]?.ending === ending) length += 1;
    if (length <= SHORT_ENDING) return ending === 2 ? 40 : 6;
    return 0;
  }
  const phrase = (bar - partFirst - (isPickup(frames, partFirst) ? 1 : 0)) % 4;
  return phrase === 0 ? 0 : phrase === 2 ? 6 : 10;
}
