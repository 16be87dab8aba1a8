import type { ConcertBar, ConcertEvent, PipeBar, PipeEvent } from "../score/bar.ts";
import { eventsOf } from "../score/doubling.ts";
import { type LineEvent, sameEvent } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import type { Line, Score } from "../score/score.ts";

/** A bar of any line. */
export type AnyBar = PipeBar | ConcertBar;

/** A line with other bars of its own kind. */
export function withLineBars(line: Line, bars: readonly AnyBar[]): Line {
  return line.kind === "pipes" ? { ...line, bars: bars as readonly PipeBar[] } : { ...line, bars: bars as readonly ConcertBar[] };
}

/** The score with one of its lines exchanged for another of the same name. */
export function withLine(score: Score, line: Line): Score {
  return { ...score, lines: score.lines.map((one) => (one.id === line.id ? line : one)) };
}

/**
 * The score with new events in some bars of a line. A bar whose events come out the same stays the very same bar, a doubled one stays doubled;
 * any other bar of a player becomes his own.
 */
export function withEvents(score: Score, id: LineId, changed: ReadonlyMap<number, readonly LineEvent[]>): Score {
  const lines = score.lines.map((line) => (line.id === id ? lineWithEvents(score, line, changed) : line));
  return lines.every((line, index) => line === score.lines[index]) ? score : { ...score, lines };
}

function lineWithEvents(score: Score, line: Line, changed: ReadonlyMap<number, readonly LineEvent[]>): Line {
  const bars: AnyBar[] = line.bars.slice();
  let touched = false;
  for (const [index, events] of changed) {
    const before = eventsOf(score, line, index);
    if (before.length === events.length && events.every((event, place) => sameEvent(event, before[place] as LineEvent))) continue;
    touched = true;
    // An event that came out the same stays the same object too.
    const kept = events.map((event) => before.find((old) => sameEvent(old, event)) ?? event);
    bars[index] = line.kind === "pipes" ? { kind: "pipes", events: kept as PipeEvent[] } : { kind: "own", events: kept as ConcertEvent[] };
  }
  return touched ? withLineBars(line, bars) : line;
}

/**
 * The second score with every bar that came out as it was exchanged for the very bar of the first: an edit of two steps may change a bar and change
 * it back. Lines to which bars came or from which some went are left as they are.
 */
export function sharing(before: Score, after: Score): Score {
  let touched = false;
  const lines = after.lines.map((line) => {
    const old = before.lines.find((one) => one.id === line.id);
    if (old === undefined || old === line || old.bars.length !== line.bars.length) return line;
    const known: readonly AnyBar[] = old.bars;
    const bars = (line.bars as readonly AnyBar[]).map((bar, index) => (sameBar(bar, known[index]) ? (known[index] as AnyBar) : bar));
    if (bars.every((bar, index) => bar === line.bars[index])) return line;
    touched = true;
    return withLineBars(line, bars);
  });
  return touched ? { ...after, lines } : after;
}

function sameBar(one: AnyBar, other: AnyBar | undefined): boolean {
  if (one === other) return true;
  if (other === undefined || one.kind === "doubling" || other.kind === "doubling" || one.kind !== other.kind) return false;
  const events: readonly LineEvent[] = other.events;
  return one.events.length === events.length && one.events.every((event, index) => sameEvent(event, events[index] as LineEvent));
}
