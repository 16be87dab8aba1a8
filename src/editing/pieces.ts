import type { Tuplet } from "../score/bar.ts";
import { isPipeNote, type LineEvent } from "../score/like-events.ts";
import type { Ticks } from "../units/ticks.ts";

/**
 * One of the pieces an event is cut into, `index` of `count`: the first begins as the event does, the last ends as it does, and each is tied to
 * the next.
 */
export function pieceOf(event: LineEvent, length: number, tuplet: Tuplet, index: number, count: number): LineEvent {
  const piece: LineEvent = { ...(index === 0 ? event : continued(event)), ticks: length as Ticks, tuplet };
  if (piece.kind === "rest" || index === count - 1) return piece;
  return isPipeNote(piece) ? { ...piece, tied: true, cutOff: false } : { ...piece, tied: true };
}

/** An event that goes on with what began before it: without gracenotes, words and strike-in. */
export function continued<Event extends LineEvent>(event: Event): Event {
  if (event.kind === "rest") return event;
  return "note" in event ? { ...event, syllables: [], gracenotes: [], strikeIn: false } : { ...event, syllables: [] };
}
