import type { Address, Moment } from "../score/address.ts";
import type { PipeEvent, PipeNote } from "../score/bar.ts";
import type { Frame } from "../score/frame.ts";
import { eventAt, type PlacedEvent, placedEvents } from "../score/placed-events.ts";
import { playedOrder } from "../score/played-order.ts";
import type { PipeLine, Score } from "../score/score.ts";
import { type GracePlace, type SoundingNote, secondsIn } from "./grace-place.ts";

/** An event of the line and the bar it stands in. */
interface Standing<Event extends PipeEvent = PipeEvent> extends PlacedEvent<Event> {
  readonly bar: number;
}

/**
 * The note that sounds at a moment by its own sign, as a place for gracenotes; null where a rest stands. It is the same place that
 * `graceSites` has, found by looking around the moment alone: however long the line is, a menu opens at once.
 */
export function gracePlaceAt({ frames }: Pick<Score, "frames">, line: PipeLine, moment: Moment): GracePlace | null {
  const bar = line.bars[moment.bar];
  const here = bar === undefined ? null : eventAt(bar, moment.at);
  if (here === null) return null;
  const head = headOf(line, { ...here, bar: moment.bar });
  return head === null ? null : { ...sounding(frames, line, head), before: before(frames, line, head) };
}

/** The places of the notes that follow one as written, so many at most, as far as nothing silences the chanter; rests are held through. */
export function placesAfter(score: Pick<Score, "frames">, line: PipeLine, place: GracePlace, count: number): readonly GracePlace[] {
  const places: GracePlace[] = [];
  let last = eventAt(line.bars[place.address.bar] as PipeLine["bars"][number], place.address.at);
  let bar = place.address.bar;
  while (places.length < count && last !== null) {
    if (last.event.kind === "note" ? last.event.cutOff : line.setup.canRest) break;
    const next = following(line, { ...last, bar });
    if (next === null) break;
    const isNew = next.event.kind === "note" && !goesOn(line, next);
    if (isNew && next.event.strikeIn) break;
    const found = isNew ? gracePlaceAt(score, line, { bar: next.bar, at: next.at }) : null;
    if (found !== null) places.push(found);
    last = next;
    bar = next.bar;
  }
  return places;
}

function sounding(frames: readonly Frame[], line: PipeLine, head: Standing<PipeNote>): SoundingNote {
  const address: Address = { line: line.id, bar: head.bar, at: head.at };
  let lasts = 0;
  for (let part: Standing | null = head; part !== null && (part === head || goesOn(line, part)); part = following(line, part)) {
    lasts += secondsIn(frames[part.bar] as Frame, part.event.ticks);
  }
  return { address, note: head.event, seconds: lasts };
}

/** What sounds before a note, for every time that its bar is played. */
function before(frames: readonly Frame[], line: PipeLine, head: Standing<PipeNote>): readonly (SoundingNote | null)[] {
  const list: (SoundingNote | null)[] = [];
  for (const turn of turnsOf(frames, head.bar)) {
    const found = soundingBefore(frames, line, head, turn);
    const known = list.some((one) => one === found || (one !== null && found !== null && isThere(one.address, found.address)));
    if (!known) list.push(found);
  }
  return list;
}

/** Walks back the way it is played, to a note that begins, or to silence. */
function soundingBefore(frames: readonly Frame[], line: PipeLine, from: Standing, turn: number): SoundingNote | null {
  const order = orderOf(frames).bars;
  for (let played = turn; played >= 0; played -= 1) {
    const bar = order[played] as number;
    const events = placedEvents(line.bars[bar] as PipeLine["bars"][number]);
    for (let index = (played === turn ? from.index : events.length) - 1; index >= 0; index -= 1) {
      const one: Standing = { ...(events[index] as PlacedEvent<PipeEvent>), bar };
      if (one.event.kind === "rest" ? line.setup.canRest : one.event.cutOff) return null;
      const note = goesOn(line, one) ? null : asNote(one);
      if (note !== null) return sounding(frames, line, note);
    }
  }
  return null;
}

/** The event where the note of another one begins: itself, or the first that ties lead from. Null for a rest. */
function headOf(line: PipeLine, standing: Standing): Standing<PipeNote> | null {
  let part: Standing | null = standing;
  while (part !== null && goesOn(line, part)) part = previous(line, part);
  return part === null ? null : asNote(part);
}

/** Whether a tie leads into an event from the like note before it. */
function goesOn(line: PipeLine, standing: Standing): boolean {
  const { event } = standing;
  if (event.kind === "rest") return false;
  const from = previous(line, standing)?.event;
  return from?.kind === "note" && from.tied && !from.cutOff && from.note === event.note;
}

function asNote({ event, ...place }: Standing): Standing<PipeNote> | null {
  return event.kind === "rest" ? null : { ...place, event };
}

/** The event before as written, or null. */
function previous(line: PipeLine, { bar, index }: Standing): Standing | null {
  for (let at = bar; at >= 0; at -= 1) {
    const events = placedEvents(line.bars[at] as PipeLine["bars"][number]);
    const found = events[(at === bar ? index : events.length) - 1];
    if (found !== undefined) return { ...found, bar: at };
  }
  return null;
}

/** The event after as written, or null. */
function following(line: PipeLine, { bar, index }: Standing): Standing | null {
  for (let at = bar; at < line.bars.length; at += 1) {
    const found = placedEvents(line.bars[at] as PipeLine["bars"][number])[at === bar ? index + 1 : 0];
    if (found !== undefined) return { ...found, bar: at };
  }
  return null;
}

function isThere(one: Address, other: Address): boolean {
  return one.bar === other.bar && one.at === other.at;
}

/** The bars as they are played, and at which turns each of them is. */
interface Order {
  readonly bars: readonly number[];
  readonly turns: ReadonlyMap<number, readonly number[]>;
}

const orders = new WeakMap<readonly Frame[], Order>();

function orderOf(frames: readonly Frame[]): Order {
  const kept = orders.get(frames);
  if (kept !== undefined) return kept;
  const bars = playedOrder(frames);
  const turns = new Map<number, number[]>();
  for (const [turn, bar] of bars.entries()) turns.set(bar, [...(turns.get(bar) ?? []), turn]);
  const order = { bars, turns };
  orders.set(frames, order);
  return order;
}

function turnsOf(frames: readonly Frame[], bar: number): readonly number[] {
  return orderOf(frames).turns.get(bar) ?? [];
}
