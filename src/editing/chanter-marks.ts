import type { PipeNote } from "../score/bar.ts";
import { barAtTime } from "../score/bar-starts.ts";
import { isPipeNote, type LineEvent, type LineNote } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import type { Line, Score } from "../score/score.ts";
import { eventAtTime, isNote, lineIn, noteBefore, noteFrom, type TimedEvent, timedEvents } from "./line-time.ts";
import { withEvents } from "./with-bars.ts";

/*
 * Where the chanter starts and stops. Edits of notes keep these marks as a piper would: the first note of a line is struck in; a note put down
 * in a silence is struck in and cut off, unless it touches a phrase, which then grows; a phrase whose end is taken away is cut off where it ends now.
 */

/** How the chanter stands around a stretch of time, before an edit puts a note over it. */
export interface Around {
  /** The chanter is silent up to the stretch: nothing sounded yet, or it was cut off. */
  readonly silentBefore: boolean;
  /** A note ends where the stretch begins (or is cut there). */
  readonly touchesBefore: boolean;
  /** The silence after the stretch follows a cut-off. */
  readonly cutOffAfter: boolean;
}

/** How the chanter stands around a stretch. Asked of the score as it was before the edit. */
export function around(score: Score, line: Line, from: number, to: number): Around {
  const before = noteBefore(score, line, from);
  const after = eventAtTime(score, line, to);
  const lastBefore = noteBefore(score, line, to);
  return {
    silentBefore: before === null || (isCutOff(before) && before.to <= from),
    touchesBefore: before !== null && before.to >= from,
    cutOffAfter: (after === null || after.event.kind === "rest") && lastBefore !== null && isCutOff(lastBefore) && lastBefore.to <= to,
  };
}

/** A note as it is put down over the stretch. Only pipes have the marks. */
export function marked(note: LineNote, stand: Around): LineNote {
  if (!isPipeNote(note)) return note;
  return { ...note, strikeIn: stand.silentBefore && !stand.touchesBefore, cutOff: stand.cutOffAfter };
}

/** The score with the marks of the neighbours mended, after a note was put over a stretch. */
export function joined(score: Score, id: LineId, from: number, to: number): Score {
  const line = lineIn(score, id);
  if (line.kind !== "pipes") return score;
  const before = noteBefore(score, line, from);
  const after = noteFrom(score, line, to);
  let mended = score;
  if (before !== null && isCutOff(before) && before.to === from)
    mended = patched(mended, id, before.from, (note) => ({ ...note, cutOff: false }));
  if (after !== null && isStruckIn(after) && soundsUpTo(mended, id, after.from)) {
    mended = patched(mended, id, after.from, (note) => ({ ...note, strikeIn: false }));
  }
  return mended;
}

/** The score with the marks mended after a stretch was emptied; `stand` is how the chanter stood before. */
export function parted(score: Score, id: LineId, from: number, to: number, stand: Around): Score {
  const line = lineIn(score, id);
  if (line.kind !== "pipes") return score;
  let mended = score;
  const before = noteBefore(score, line, from);
  if (stand.cutOffAfter && before !== null) mended = patched(mended, id, before.from, (note) => ({ ...note, cutOff: true }));
  const after = noteFrom(score, line, to);
  if (stand.silentBefore && after !== null) mended = patched(mended, id, after.from, (note) => ({ ...note, strikeIn: true }));
  return mended;
}

/** Whether the chanter sounds right up to a time: a note ends there uncut, or was left sounding over a rest. */
export function soundsUpTo(score: Score, id: LineId, time: number): boolean {
  const before = noteBefore(score, lineIn(score, id), time);
  return before !== null && !(isCutOff(before) && before.to <= time);
}

/** The score with the written pipe note that begins at a time changed in place. */
export function patched(score: Score, id: LineId, from: number, change: (note: PipeNote) => PipeNote): Score {
  return patchedNote(score, id, from, (note) => (isPipeNote(note) ? change(note) : note));
}

/** The score with the written note that begins at a time changed in place; its length stays. */
export function patchedNote(score: Score, id: LineId, from: number, change: (note: LineNote) => LineNote): Score {
  const line = lineIn(score, id);
  const bar = barAtTime(score.frames, from);
  const events = timedEvents(score, line, bar).map((one): LineEvent => (one.from === from && isNote(one) ? change(one.event) : one.event));
  return withEvents(score, id, new Map([[bar, events]]));
}

/** Whether the chanter stops at the end of a note. */
export function isCutOff(one: TimedEvent): boolean {
  return isNote(one) && isPipeNote(one.event) && one.event.cutOff;
}

/** Whether the chanter starts with a note. */
export function isStruckIn(one: TimedEvent): boolean {
  return isNote(one) && isPipeNote(one.event) && one.event.strikeIn;
}
