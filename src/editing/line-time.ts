import { barAtTime, barStarts } from "../score/bar-starts.ts";
import { eventsOf } from "../score/doubling.ts";
import { isPipeNote, type LineEvent, type LineNote, soundAlike } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import { lineOf } from "../score/line-of.ts";
import { type PlacedEvent, placedEvents } from "../score/placed-events.ts";
import type { Line, Score } from "../score/score.ts";

/* One line as a stretch of time: bar lines forgotten, moments counted in ticks from the start of the score. */

/** An event with the time it begins, from the start of the score. */
export interface TimedEvent<Event extends LineEvent = LineEvent> {
  readonly from: number;
  readonly to: number;
  readonly event: Event;
}

/**
 * The line of that name.
 * @throws RangeError when there is none: whoever asks has looked before.
 */
export function lineIn(score: Score, id: LineId): Line {
  const line = lineOf(score, id);
  if (line === null) throw new RangeError(`There is no line ${id}.`);
  return line;
}

/** The events of a bar with their times. */
export function timedEvents(score: Score, line: Line, bar: number): readonly TimedEvent[] {
  const start = barStarts(score.frames)[bar] ?? 0;
  return placedEvents<LineEvent>({ events: eventsOf(score, line, bar) }).map((placed) => timed(placed, start));
}

/** The event that begins at or sounds through a time; null outside the score. */
export function eventAtTime(score: Score, line: Line, time: number): TimedEvent | null {
  if (time < 0) return null;
  const bar = barAtTime(score.frames, time);
  return timedEvents(score, line, bar).find((one) => one.from <= time && time < one.to) ?? null;
}

/** The last note that begins before a time, whether or not it has ended by then; null when there is none. */
export function noteBefore(score: Score, line: Line, time: number): TimedEvent<LineNote> | null {
  for (let bar = barAtTime(score.frames, time); bar >= 0; bar -= 1) {
    const found = timedEvents(score, line, bar).findLast((one) => one.from < time && isNote(one));
    if (found !== undefined && isNote(found)) return found;
  }
  return null;
}

/** The first note that begins at a time or later; null when there is none. */
export function noteFrom(score: Score, line: Line, time: number): TimedEvent<LineNote> | null {
  for (let bar = barAtTime(score.frames, time); bar < score.frames.length; bar += 1) {
    const found = timedEvents(score, line, bar).find((one) => one.from >= time && isNote(one));
    if (found !== undefined && isNote(found)) return found;
  }
  return null;
}

/** A note with all it is tied to. */
export interface Chain {
  readonly from: number;
  readonly to: number;
  /** One note for the whole of it: it begins as the first event does and ends as the last does, untied. Its `ticks` are the first event's. */
  readonly note: LineNote;
  readonly last: TimedEvent<LineNote>;
}

/** The note that sounds at a time, with all it is tied to; null where there is none. */
export function chainAt(score: Score, line: Line, time: number): Chain | null {
  const found = eventAtTime(score, line, time);
  if (found === null || !isNote(found)) return null;
  let first = found;
  for (let before = tiedBefore(score, line, first); before !== null; before = tiedBefore(score, line, first)) first = before;
  let last = found;
  for (let after = tiedAfter(score, line, last); after !== null; after = tiedAfter(score, line, last)) last = after;
  const note = isPipeNote(first.event)
    ? { ...first.event, tied: false, cutOff: isPipeNote(last.event) && last.event.cutOff }
    : { ...first.event, tied: false };
  return { from: first.from, to: last.to, note, last };
}

function tiedBefore(score: Score, line: Line, note: TimedEvent<LineNote>): TimedEvent<LineNote> | null {
  const before = eventAtTime(score, line, note.from - 1);
  return before !== null && isNote(before) && before.event.tied && soundAlike(before.event, note.event) ? before : null;
}

function tiedAfter(score: Score, line: Line, note: TimedEvent<LineNote>): TimedEvent<LineNote> | null {
  if (!note.event.tied) return null;
  const after = eventAtTime(score, line, note.to);
  return after !== null && isNote(after) && soundAlike(after.event, note.event) ? after : null;
}

/** Whether a timed event is a note. */
export function isNote(one: TimedEvent): one is TimedEvent<LineNote> {
  return one.event.kind === "note";
}

function timed(placed: PlacedEvent<LineEvent>, start: number): TimedEvent {
  const from = start + placed.at;
  return { from, to: from + placed.event.ticks, event: placed.event };
}
