import { type Ticks, ticks } from "../units/ticks.ts";
import type { ConcertEvent, PipeEvent } from "./bar.ts";

/** An event together with where in its bar it begins. */
export interface PlacedEvent<Event extends PipeEvent | ConcertEvent = PipeEvent | ConcertEvent> {
  /** From the start of the bar. */
  readonly at: Ticks;
  /** Its place in the bar's list, from 0. */
  readonly index: number;
  readonly event: Event;
}

/** A bar whose events are its own: any but a doubling one. */
export interface BarOfEvents<Event extends PipeEvent | ConcertEvent> {
  readonly events: readonly Event[];
}

const placed = new WeakMap<readonly (PipeEvent | ConcertEvent)[], readonly PlacedEvent[]>();

/** The events of a bar with where each begins, in order. Kept for as long as the bar is. */
export function placedEvents<Event extends PipeEvent | ConcertEvent>(bar: BarOfEvents<Event>): readonly PlacedEvent<Event>[] {
  const known = placed.get(bar.events);
  if (known !== undefined) return known as readonly PlacedEvent<Event>[];
  let at = 0;
  const list = bar.events.map((event, index) => {
    const here = { at: at as Ticks, index, event };
    at += event.ticks;
    return here;
  });
  placed.set(bar.events, list);
  return list;
}

/** The event that begins at or sounds through a moment of the bar, or null past its end. */
export function eventAt<Event extends PipeEvent | ConcertEvent>(bar: BarOfEvents<Event>, at: Ticks): PlacedEvent<Event> | null {
  return placedEvents(bar).find((one) => one.at <= at && at < one.at + one.event.ticks) ?? null;
}

/** How long all events of the bar last together; its frame's length unless something is wrong. */
export function lengthOf(bar: BarOfEvents<PipeEvent | ConcertEvent>): Ticks {
  return ticks(bar.events.reduce((sum, event) => sum + event.ticks, 0));
}
