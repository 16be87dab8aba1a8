import type { Clef } from "../ensemble/player.ts";
import type { Frame } from "../score/frame.ts";
import { frameTicks } from "../score/meter.ts";
import type { BarContext } from "./bar-context.ts";
import type { BarSign } from "./bar-signs.ts";
import { beamGroups } from "./beam-groups.ts";
import { hundredths } from "./boxes.ts";
import { CLOSING_ROOM, clefOf, hasLedger, LEAST_GAP, openingRoom, type Room, roomsOf, stemsOf, wordDistance, wordsRoom } from "./rooms.ts";

/** Where every head of a bar begins, and whether all rules were kept. */
export interface Placing {
  /** Left edges of the heads, in the order of the signs. */
  readonly xs: readonly number[];
  readonly fits: boolean;
}

/** On the desk a head stands so far right of its moment, so that the bar line before it is clear. */
const USUAL = 6;

/** And, where its neighbours press, no further than this from it. */
const FURTHEST = 14;

/** Between two signs whose ledger lines stick out towards each other. */
const LEDGERS = 5.5;

/** Between two chords that ties lie between. */
const CHORD_TIE = 11;

/** What a tie from the line of staff before takes at the beginning of its bar. */
const TIE_COMING_IN = 8;

/** One head must stand so far right of another. */
interface Distance {
  readonly from: number;
  readonly to: number;
  readonly least: number;
}

/** What placing needs to know of a bar, worked out once for all widths. */
export interface Spacing {
  readonly signs: readonly BarSign[];
  readonly rooms: readonly Room[];
  readonly distances: readonly Distance[];
  readonly opening: number;
  readonly closing: number;
  /** The least width of the bar for the words over it. */
  readonly words: number;
  /** Ticks of the bar. */
  readonly length: number;
}

/** Room and distances of a bar's signs. */
export function spacingOf(signs: readonly BarSign[], context: BarContext): Spacing {
  const beams = beamGroups(signs, context);
  const rooms = roomsOf(signs, beams, stemsOf(signs, beams, context), context);
  return {
    signs,
    rooms,
    distances: distancesOf(signs, rooms, clefOf(context)),
    opening: openingRoom(context) + (context.tieInDrawn ? TIE_COMING_IN : 0),
    closing: CLOSING_ROOM[context.closing],
    words: wordsRoom(signs, context),
    length: frameTicks(context as Pick<Frame, "meter" | "short"> as Frame),
  };
}

/**
 * Heads at the moments the grid has them: time is linear from bar line to bar line. Neighbours that press move each other, at most 14 px from
 * their moment; only the first head goes further where its gracenotes need the room after the bar line.
 */
export function placedOnDesk({ signs, rooms, distances, opening, closing, words, length }: Spacing, width: number): Placing {
  const moments = signs.map((sign) => (width * sign.at) / length);
  const first = opening + (rooms[0]?.before ?? 0);
  const xs = moments.map((moment) => moment + USUAL);
  for (let index = 0; index < xs.length; index += 1) {
    if (index === 0) xs[0] = Math.max(xs[0] as number, first);
    for (const { from, to, least } of distances) {
      if (to === index) xs[index] = Math.max(xs[index] as number, (xs[from] as number) + least);
    }
  }
  for (let index = xs.length - 1; index >= 0; index -= 1) {
    let most = width - Math.max(closing + (rooms[index]?.after ?? 0), rooms[index]?.syllable ?? 0);
    if (index > 0) most = Math.min(most, (moments[index] as number) + FURTHEST);
    for (const { from, to, least } of distances) {
      if (from === index) most = Math.min(most, (xs[to] as number) - least);
    }
    xs[index] = Math.min(xs[index] as number, most);
  }
  const fits = xs.every((x, index) => (index === 0 ? x >= first - 0.01 : x >= (moments[index] as number) - FURTHEST));
  return { xs: xs.map(hundredths), fits: fits && words <= width };
}

/** Heads as engravers space them: longer notes get more paper, but not in proportion. Stretched or pressed to the width as evenly as may be. */
export function placedOnPage(spacing: Spacing, width: number): Placing {
  let [low, high] = [0, 64];
  for (let step = 0; step < 24; step += 1) {
    const middle = (low + high) / 2;
    if (pagePositions(spacing, middle).end > width) high = middle;
    else low = middle;
  }
  const { xs, end } = pagePositions(spacing, low);
  return { xs: xs.map(hundredths), fits: end <= width + 0.01 };
}

/** How wide a bar is on a page when nothing stretches or presses it. */
export function naturalWidth(spacing: Spacing): number {
  return Math.max(pagePositions(spacing, 1).end, spacing.words);
}

/** How narrow a bar may be pressed and still read well. */
export function pressedWidth(spacing: Spacing): number {
  return Math.max(pagePositions(spacing, PRESSED).end, spacing.words);
}

const PRESSED = 0.66;

/** Paper that a quarter note gets, head included. */
const QUARTER = 27;

function pagePositions({ signs, rooms, distances, opening, closing }: Spacing, stretch: number): { xs: number[]; end: number } {
  const xs: number[] = [];
  let wordsTo = 0;
  let next = opening + (rooms[0]?.before ?? 0) + (LEAST_GAP + 2) * Math.min(stretch, 1.5);
  for (const [index, sign] of signs.entries()) {
    for (const { from, to, least } of distances) {
      if (to === index) next = Math.max(next, (xs[from] as number) + least);
    }
    xs.push(next);
    wordsTo = Math.max(wordsTo, next + Math.max(rooms[index]?.syllable ?? 0, rooms[index]?.chord ?? 0));
    next += Math.max(stretch * QUARTER * (sign.value.ticks / 960) ** 0.6, (rooms[index]?.after ?? 0) + LEAST_GAP);
  }
  return { xs, end: Math.max(next + closing, wordsTo) };
}

function distancesOf(signs: readonly BarSign[], rooms: readonly Room[], clef: Clef): readonly Distance[] {
  const distances: Distance[] = [];
  for (const [index, room] of rooms.entries()) {
    const [before, signBefore] = [rooms[index - 1], signs[index - 1]];
    if (before === undefined || signBefore === undefined) continue;
    const sign = signs[index] as BarSign;
    const chordTie = signBefore.tied && signBefore.heads.length > 1 ? CHORD_TIE : 0;
    const ledgers = hasLedger(signBefore, clef) && hasLedger(sign, clef) ? LEDGERS : 0;
    distances.push({ from: index - 1, to: index, least: before.after + Math.max(LEAST_GAP, chordTie, ledgers) + room.before });
  }
  const rows = [rooms.map(({ syllable }) => syllable), rooms.map(({ chord }) => chord), rooms.map(({ chart }) => chart)];
  distances.push(...rows.flatMap(wordDistances));
  return distances.sort((one, other) => one.to - other.to);
}

/** In a row of words or charts each must end before the next begins; a width of 0 is none. */
function wordDistances(widths: readonly number[]): readonly Distance[] {
  const distances: Distance[] = [];
  let last = -1;
  for (const [index, width] of widths.entries()) {
    if (width === 0) continue;
    if (last >= 0) distances.push({ from: last, to: index, least: wordDistance(widths[last] as number) });
    last = index;
  }
  return distances;
}
