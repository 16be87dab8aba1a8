import type { Address } from "../score/address.ts";
import type { ConcertEvent, PipeEvent } from "../score/bar.ts";
import type { LineId } from "../score/line-id.ts";
import { placedEvents } from "../score/placed-events.ts";
import type { Seconds } from "../units/seconds.ts";
import type { Ticks } from "../units/ticks.ts";
import { secondIn, type Timeline } from "./timeline.ts";

/** An event as it is played once. */
export interface PlayedEvent<Event extends PipeEvent | ConcertEvent> {
  readonly event: Event;
  /** Where it stands in the score. */
  readonly address: Address;
  readonly start: Seconds;
  readonly end: Seconds;
  /** False where playing begins inside the event, so that its beginning is not heard. */
  readonly fromItsStart: boolean;
  /** False where playing leaves the event before it ends. */
  readonly toItsEnd: boolean;
}

/**
 * The events of a line in the order they are played, each with its time; those at the edges of a stretch are cut.
 *
 * @param eventsOf the events of the bar at an index; it is asked once for every playing of the bar
 */
export function playedEvents<Event extends PipeEvent | ConcertEvent>(
  timeline: Timeline,
  line: LineId,
  eventsOf: (bar: number) => readonly Event[],
): readonly PlayedEvent<Event>[] {
  const played: PlayedEvent<Event>[] = [];
  for (const bar of timeline.bars) {
    for (const { at, event } of placedEvents({ events: eventsOf(bar.bar) })) {
      const first = Math.max(at, bar.from);
      const last = Math.min(at + event.ticks, bar.to);
      if (first >= last) continue;
      played.push({
        event,
        address: { line, bar: bar.bar, at: at as Ticks },
        start: secondIn(bar, first),
        end: secondIn(bar, last),
        fromItsStart: first === at,
        toItsEnd: last === at + event.ticks,
      });
    }
  }
  return played;
}
