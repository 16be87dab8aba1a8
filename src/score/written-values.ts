import { TICKS_PER_QUARTER, type Ticks, ticks } from "../units/ticks.ts";
import type { Tuplet } from "./bar.ts";
import type { Frame } from "./frame.ts";
import { meterOffset } from "./meter.ts";
import { LEAST_TICKS, type MetricGroup, metricGroupOf } from "./metric-group.ts";

/** One note or rest sign as it is printed. */
export interface WrittenValue {
  /** 1 a whole, 2 a half, 4 a quarter ... 32 a 32nd. */
  readonly base: 1 | 2 | 4 | 8 | 16 | 32;
  readonly dots: 0 | 1;
  readonly tuplet: Tuplet;
  /** How long it lasts in the bar, tuplet taken into account. */
  readonly ticks: Ticks;
}

const WHOLE = TICKS_PER_QUARTER * 4;
const BASES = [1, 2, 4, 8, 16, 32] as const;

/** Straight lengths that one sign shows, longest first. */
const SIGNS = BASES.flatMap((base) => [
  { base, dots: 1 as const, length: (WHOLE / base) * 1.5 },
  { base, dots: 0 as const, length: WHOLE / base },
]);

/** The length a tuplet note would have if it were straight: a triplet eighth of 320 counts as 480. */
export function straightTicks(length: number, tuplet: Tuplet): number {
  if (tuplet === 3) return (length * 3) / 2;
  if (tuplet === 2) return (length * 2) / 3;
  return length;
}

/** What a straight length lasts inside a tuplet: an eighth of 480 in a triplet lasts 320. */
export function tupletTicks(straight: number, tuplet: Tuplet): number {
  if (tuplet === 3) return (straight * 2) / 3;
  if (tuplet === 2) return (straight * 3) / 2;
  return straight;
}

/** Whether note values, tied if need be, can show such a length: none shorter than a 32nd, dotted 32nds allowed. */
export function isWritable(length: number, tuplet: Tuplet): boolean {
  const straight = straightTicks(length, tuplet);
  return Number.isInteger(length) && straight >= LEAST_TICKS && straight % (LEAST_TICKS / 2) === 0;
}

/** Bars of one meter hold the same few lengths in the same few places again and again. */
const known = new Map<string, readonly WrittenValue[]>();
const KEPT = 4000;

/**
 * The signs that show an event, in order; several are tied (rests just follow one another).
 * A plain or dotted sign where it leaves the middle of the bar and the beats to be seen, as common engraving practice has it, tied signs elsewhere;
 * rests show every beat.
 * A length that no signs fill gets those that fit into it, none when it is shorter than a 32nd; `check` reports it.
 */
export function writtenValues(
  at: Ticks,
  length: Ticks,
  tuplet: Tuplet,
  frame: Frame,
  kind: "note" | "rest" = "note",
): readonly WrittenValue[] {
  const { meter, short } = frame;
  const key = `${at} ${length} ${tuplet} ${kind} ${meter.beats}/${meter.unit} ${short}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  if (known.size >= KEPT) known.clear();
  const made = valuesFor(at, length, tuplet, frame, kind);
  known.set(key, made);
  return made;
}

function valuesFor(at: Ticks, length: Ticks, tuplet: Tuplet, frame: Frame, kind: "note" | "rest"): readonly WrittenValue[] {
  if (tuplet !== null) return fitting(straightTicks(length, tuplet)).map((sign) => writtenFrom(sign, tuplet));
  const pieces: Sign[] = [];
  const from = at + meterOffset(frame);
  const group = metricGroupOf(frame.meter);
  if (from + length > group.length) return fitting(length).map((sign) => writtenFrom(sign, null));
  divide(from, from + length, 0, group, kind === "note" ? mayStand : mayRest, pieces);
  const shown = pieces.reduce((sum, piece) => sum + piece.length, 0);
  return (shown === length ? pieces : fitting(length)).map((sign) => writtenFrom(sign, null));
}

interface Sign {
  readonly base: WrittenValue["base"];
  readonly dots: 0 | 1;
  readonly length: number;
}

function signOf(length: number): Sign | null {
  return SIGNS.find((sign) => sign.length === length) ?? null;
}

function writtenFrom(sign: Sign, tuplet: Tuplet): WrittenValue {
  return { base: sign.base, dots: sign.dots, tuplet, ticks: ticks(tupletTicks(sign.length, tuplet)) };
}

/** Appends the signs from one moment to another, `start` being where the group begins. */
function divide(from: number, to: number, start: number, group: MetricGroup, may: Rule, pieces: Sign[]): void {
  if (from >= to) return;
  const sign = signOf(to - from);
  if (sign !== null && may(from - start, to - start, sign, group)) {
    pieces.push(sign);
    return;
  }
  // As much as one sign may cover from here: two of the three beats of 9/8.
  const edge = edgesOf(group).findLast((one) => {
    const piece = signOf(start + one - from);
    return start + one > from && start + one < to && piece !== null && may(from - start, one, piece, group);
  });
  if (edge !== undefined) {
    divide(from, start + edge, start, group, may, pieces);
    divide(start + edge, to, start, group, may, pieces);
    return;
  }
  let partStart = start;
  for (const part of group.parts) {
    const partEnd = partStart + part.length;
    divide(Math.max(from, partStart), Math.min(to, partEnd), partStart, part, may, pieces);
    partStart = partEnd;
  }
}

/** Says whether one sign may cover a stretch of a group, both counted from the group's start. */
type Rule = (from: number, to: number, sign: Sign, group: MetricGroup) => boolean;

/** Rests show every beat: one stands where a group begins, and is dotted only for whole dotted beats. */
function mayRest(from: number, to: number, sign: Sign, group: MetricGroup): boolean {
  if (from === 0 && to === group.length) return true;
  if (from !== 0 || liesInOnePart(from, to, group)) return group.kind === "dotted-beats" && mayStand(from, to, sign, group);
  switch (group.kind) {
    case "least":
      return true;
    case "twos":
    case "beat":
      return sign.dots === 0;
    case "threes":
    case "uneven":
      return false;
    case "dotted-beats":
      return mayStand(from, to, sign, group);
  }
}

/** Whether one sign may cover a stretch of a group, both counted from the group's start. */
function mayStand(from: number, to: number, sign: Sign, group: MetricGroup): boolean {
  if (from === 0 && to === group.length) return true;
  if (liesInOnePart(from, to, group)) return false;
  const third = group.length / 3;
  switch (group.kind) {
    case "least":
      return true;
    case "twos":
      return mayStandInTwos(from, to, sign, group.length);
    case "threes":
      // From the first beat anything up to the next beat but one (a dotted quarter in 3/4); later only whole beats.
      return from === 0 ? to <= 2 * third : from % third === 0 && to % third === 0;
    case "beat":
      // The two dotted halves of a dotted beat are read at sight, and are how straight pairs are written in 6/8.
      return from === 0 || (from % third === 0 && to % third === 0) || (from * 2 === group.length && to === group.length);
    case "dotted-beats":
    case "uneven": {
      const edges = edgesOf(group);
      return edges.includes(from) && edges.includes(to);
    }
  }
}

/** From the start; up to the end, dotted, in anything up to a half; or over the middle evenly, as in eighth, quarter, eighth. */
function mayStandInTwos(from: number, to: number, sign: Sign, length: number): boolean {
  if (from === 0) return true;
  if (to === length) return sign.dots === 1 && length <= WHOLE / 2;
  return from * 4 === length && to * 4 === length * 3;
}

function liesInOnePart(from: number, to: number, group: MetricGroup): boolean {
  const edges = edgesOf(group);
  return edges.some((edge, index) => from >= edge && to <= (edges[index + 1] ?? -1));
}

/** Where the parts of a group begin, and its end, from its start. */
function edgesOf(group: MetricGroup): readonly number[] {
  let edge = 0;
  return [0, ...group.parts.map((part) => (edge += part.length))];
}

/** Signs that fill as much of a straight length as signs can, longest first, leaving no remainder too short to write where that can be helped. */
function fitting(length: number): readonly Sign[] {
  const found: Sign[] = [];
  let rest = length;
  while (rest >= LEAST_TICKS) {
    const next = SIGNS.find((sign) => sign.length <= rest && (sign.length === rest || rest - sign.length >= LEAST_TICKS));
    const sign = next ?? SIGNS.find((one) => one.length <= rest);
    if (sign === undefined) break;
    found.push(sign);
    rest -= sign.length;
  }
  return found;
}
