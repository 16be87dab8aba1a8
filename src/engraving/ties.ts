import type { Clef } from "../ensemble/player.ts";
import type { BarContext } from "./bar-context.ts";
import type { BarSign } from "./bar-signs.ts";
import { groupOf, hundredths } from "./boxes.ts";
import { type Box, type Mark, type MarkGroup, STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { clefOf, headWidth, type Room, type Stem } from "./rooms.ts";
import { staffY } from "./signature.ts";

/*
 * A single note's tie lies outside its heads, on the side that has no stem; those of a chord lie between its heads:
 *
 *      ╭───────╮
 *      ●       ●            ●╭────╮●
 *      │       │            ●╰────╯●
 */

/** A tie is thickest in its middle. */
const THICKNESS = 1.5;

/** From a head's middle to a tie outside it, and a little more where a dot stands there. */
const OUTSIDE = 0.68 * STAFF_SPACE;
const OVER_DOT = 2.6;

/** From a head's middle to a tie beside it. */
const BESIDE = 1.8;

/** Between a head, with its ledger line, and a tie beside it. */
const CLEAR = 3.2;

/** How high ties bow: those outside their heads more, the longer they are. */
const LEAST_BOW = 3.2;
const MOST_BOW = 8;
const MOST_BOW_BESIDE = 4.5;

/** How far a tie reaches from the middle of its head at most. */
export const TIE_REACH = OUTSIDE + OVER_DOT + MOST_BOW + THICKNESS / 2;

/** Where a tie that comes in from another line of staff begins. */
const COMING_IN = -2;

/** What ties are drawn from: the signs of a bar where they stand. */
export interface TiedSigns {
  readonly signs: readonly BarSign[];
  readonly xs: readonly number[];
  readonly stems: readonly Stem[];
  readonly rooms: readonly Room[];
  readonly context: BarContext;
}

/** Ties from every held sign to the next; the last one reaches over the bar line to the next bar's first head. */
export function tieGroups({ signs, xs, stems, rooms, context }: TiedSigns): readonly MarkGroup[] {
  const clef = clefOf(context);
  const end = (index: number): TieEnd | undefined => {
    const sign = signs[index];
    return sign && { sign, x: xs[index] as number, stem: stems[index] ?? "down", room: rooms[index] as Room };
  };
  const groups: MarkGroup[] = [];
  const first = end(0);
  if (first !== undefined && context.tieInDrawn && first.sign.heads.length > 0)
    groups.push(groupOf("tie", first.sign.eventAt, tiesBetween(first.sign, COMING_IN, first, first.stem, clef)));
  for (const [index, sign] of signs.entries()) {
    const [here, next] = [end(index) as TieEnd, end(index + 1)];
    if (!sign.tied || sign.heads.length === 0) continue;
    groups.push(groupOf("tie", sign.eventAt, tiesBetween(sign, here, next ?? context.width + context.tieOutReach, here.stem, clef)));
  }
  return groups;
}

/** Where a tie from the bar before may lie that is drawn with that bar, so that words are put clear of it. */
export function tieComingIn({ heads }: BarSign, x: number, clef: Clef): Box {
  const ys = heads.map(({ spelling }) => staffY(spelling.letter, spelling.octave, clef));
  return {
    left: 0,
    top: Math.min(0, ...ys.map((y) => y - TIE_REACH)),
    right: x + STAFF_SPACE,
    bottom: Math.max(0, ...ys.map((y) => y + TIE_REACH)),
  };
}

/** A sign that a tie begins or ends at. */
interface TieEnd {
  readonly sign: BarSign;
  readonly x: number;
  readonly stem: Stem;
  readonly room: Room;
}

/** One tie a head. Where an end lies in another bar, only its x is known. */
function tiesBetween(sign: BarSign, from: TieEnd | number, to: TieEnd | number, stem: Stem, clef: Clef): readonly Mark[] {
  const ys = [...new Set(sign.heads.map(({ spelling }) => staffY(spelling.letter, spelling.octave, clef)))];
  const [only] = ys;
  if (sign.heads.length === 1 && only !== undefined) return [outsideTie(sign, only, from, to, stem)];
  const [x1, x2] = besides(from, to);
  return ys.map((y, index) => {
    const bow = index * 2 >= ys.length ? -1 : 1;
    return tieMark(x1, x2, y + bow * BESIDE, bow, MOST_BOW_BESIDE);
  });
}

/** A tie over or under its heads. Where their ledger lines are in its way it goes to the side of the stem, past it and flatter. */
function outsideTie(sign: BarSign, y: number, from: TieEnd | number, to: TieEnd | number, stem: Stem): Mark {
  const outwards = y <= -STAFF_SPACE ? -1 : y >= STAFF_HEIGHT + STAFF_SPACE ? 1 : null;
  const opposite = stem === "down" ? -1 : 1;
  const bow = outwards ?? opposite;
  const dotted = bow === -1 && sign.value.dots > 0;
  const level = y + bow * (OUTSIDE + (dotted ? OVER_DOT : 0));
  const head = headWidth(sign);
  // A stem up stands right of its head: a tie that bows up begins after it. One down stands left: a tie that bows down ends before it.
  const x1 = typeof from === "number" ? from : from.x + (bow === -1 && from.stem === "up" ? from.room.after + 1 : head * 0.65);
  return tieMark(x1, endOf(to, bow, head), level, bow, bow === opposite ? MOST_BOW : LEAST_BOW);
}

function endOf(to: TieEnd | number, bow: -1 | 1, head: number): number {
  // The stem of the next bar's head is not known here: if the tie bows down it stays clear of it.
  if (typeof to === "number") return bow === -1 ? to : to - head * 0.4 - 1.5;
  if (to.room.accidentals > 0) return to.x - to.room.accidentals - 1;
  return bow === 1 && to.stem === "down" ? to.x - 1.5 : to.x + head * 0.4;
}

/** From after one column of heads to before the next. */
function besides(from: TieEnd | number, to: TieEnd | number): readonly [number, number] {
  const x1 = typeof from === "number" ? from : from.x + from.room.after + CLEAR - 1;
  const x2 = typeof to === "number" ? to - CLEAR - 3.3 : to.x - to.room.before - CLEAR;
  return [x1, Math.max(x2, x1 + 2)];
}

/** A tie bowed upwards (-1) or downwards (1) between two points of one height. */
export function tieMark(x1: number, x2: number, y: number, bow: -1 | 1, most = MOST_BOW): Mark {
  const length = x2 - x1;
  const height = Math.min(most, Math.max(LEAST_BOW, 2.2 + length * 0.09)) * bow;
  const inset = Math.min(length * 0.3, 12);
  const curve = (from: number, to: number, control: number) => `C${[from, control, to, control].map(hundredths).join(" ")} `;
  const thick = THICKNESS * bow;
  const outer = curve(x1 + inset, x2 - inset, y + height + thick / 2);
  const inner = curve(x2 - inset, x1 + inset, y + height - thick / 2);
  const [start, end, level] = [x1, x2, y].map(hundredths);
  return { kind: "path", d: `M${start} ${level}${outer}${end} ${level}${inner}${start} ${level}Z` };
}
