import type { Moment } from "../score/address.ts";
import { eventsOf } from "../score/doubling.ts";
import type { LineEvent } from "../score/like-events.ts";
import { placedEvents } from "../score/placed-events.ts";
import type { Line, Score } from "../score/score.ts";
import type { Ticks } from "../units/ticks.ts";
import { isTiedOn } from "./bar-signs.ts";

/** An event of a part with where it begins. */
export interface FoundEvent extends Moment {
  readonly event: LineEvent;
}

/** The event that begins at or sounds through a moment of a part; null where there is none. */
export function eventOfPart(score: Score, line: Line, { bar, at }: Moment): FoundEvent | null {
  const found = placedEvents({ events: eventsOf(score, line, bar) }).find((one) => one.at <= at && at < one.at + one.event.ticks);
  return found === undefined ? null : { bar, at: found.at, event: found.event };
}

/** The next event of a part, a rest too, after (1) or before (-1) a moment; null at either end. */
export function nextEvent(score: Score, line: Line, { bar, at }: Moment, direction: 1 | -1): FoundEvent | null {
  for (let index = bar; index >= 0 && index < score.frames.length; index += direction) {
    const placed = placedEvents({ events: eventsOf(score, line, index) });
    const found = direction === 1 ? placed.find((one) => index > bar || one.at > at) : placed.findLast((one) => index < bar || one.at < at);
    if (found !== undefined) return { bar: index, at: found.at, event: found.event };
  }
  return null;
}

/** Where the event begins that sounds at a moment, as the marks' `at` names it; null where there is none. */
export function startOfEvent(score: Score, line: Line, moment: Moment): Ticks | null {
  return eventOfPart(score, line, moment)?.at ?? null;
}

/** All events that sound as one with that at a moment, being tied: itself, those before and those after, in order. Empty where there is none. */
export function heldTogether(score: Score, line: Line, moment: Moment): readonly FoundEvent[] {
  const here = eventOfPart(score, line, moment);
  if (here === null) return [];
  const chain = [here];
  for (let first = here; ; ) {
    const before = nextEvent(score, line, first, -1);
    if (before === null || !isTiedOn(before.event, first.event)) break;
    chain.unshift(before);
    first = before;
  }
  for (let last = here; ; ) {
    const after = nextEvent(score, line, last, 1);
    if (after === null || !isTiedOn(last.event, after.event)) break;
    chain.push(after);
    last = after;
  }
  return chain;
}
