import type { Moment } from "../score/address.ts";
import type { ConcertEvent, PipeEvent } from "../score/bar.ts";
import { scoreTicks, timeOf } from "../score/bar-starts.ts";
import type { BarClip, BarRange, StretchClip } from "../score/edit.ts";
import type { LineEvent } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import type { Score } from "../score/score.ts";
import type { Ticks } from "../units/ticks.ts";
import { eventAtTime, lineIn } from "./line-time.ts";
import { continued } from "./pieces.ts";

/**
 * A copy of a stretch of one line, from one moment up to (not including) another; a doubled bar is copied as notes. A note that begins before it
 * is copied from there on, without its gracenotes and words; one that goes on after it is cut and untied. Empty when the stretch is.
 */
export function copyStretch(score: Score, id: LineId, from: Moment, to: Moment): StretchClip {
  const line = lineIn(score, id);
  const end = Math.min(timeOf(score.frames, to), scoreTicks(score.frames));
  const events: LineEvent[] = [];
  let time: number = timeOf(score.frames, from);
  while (time < end) {
    const one = eventAtTime(score, line, time);
    if (one === null) break;
    const begun = one.from < time ? continued(one.event) : one.event;
    const until = Math.min(one.to, end);
    events.push(one.to >= end ? stopped(begun, until - time, one.to > end) : { ...begun, ticks: (until - time) as Ticks });
    time = until;
  }
  return line.kind === "pipes"
    ? { kind: "pipes", events: events as readonly PipeEvent[] }
    : { kind: "concert", events: events as readonly ConcertEvent[] };
}

function stopped(event: LineEvent, length: number, isCut: boolean): LineEvent {
  const ticks = length as Ticks;
  if (event.kind === "rest") return { ...event, ticks };
  return "note" in event ? { ...event, ticks, tied: false, cutOff: event.cutOff && !isCut } : { ...event, ticks, tied: false };
}

/** A copy of whole bars, every line's together; doubled bars stay doubled. */
export function copyBars(score: Score, { first, last }: BarRange): BarClip {
  return {
    frames: score.frames.slice(first, last + 1),
    bars: Object.fromEntries(score.lines.map((line) => [line.id, line.bars.slice(first, last + 1)])),
  };
}
