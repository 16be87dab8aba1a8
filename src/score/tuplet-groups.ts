import type { Ticks } from "../units/ticks.ts";
import type { ConcertEvent, PipeEvent } from "./bar.ts";
import { type BarOfEvents, placedEvents } from "./placed-events.ts";

/** Events that stand under one tuplet figure. */
export interface TupletGroup {
  readonly tuplet: 3 | 2;
  /** Index of its first event in the bar. */
  readonly first: number;
  /** How many events it has. */
  readonly count: number;
  /** From the start of the bar. */
  readonly from: Ticks;
  readonly ticks: Ticks;
  /** Whether the events fill three in the time of two (or two in the time of three) of some note value. */
  readonly complete: boolean;
}

/** What a complete group lasts: triplets fill a 16th to a whole, duplets a dotted 16th to a dotted whole. */
const SPANS = { 3: [240, 480, 960, 1920, 3840], 2: [360, 720, 1440, 2880, 5760] } as const;

const groups = new WeakMap<readonly (PipeEvent | ConcertEvent)[], readonly TupletGroup[]>();

/**
 * The tuplet groups of a bar, in order. They are not stored: neighbours of one tuplet are parted into the smallest groups that fill a note value.
 * A leftover that fills none is a group that is not complete.
 */
export function tupletGroups(bar: BarOfEvents<PipeEvent | ConcertEvent>): readonly TupletGroup[] {
  const kept = groups.get(bar.events);
  if (kept !== undefined) return kept;
  const found: TupletGroup[] = [];
  const events = bar.events;
  let index = 0;
  while (index < events.length) {
    const tuplet = events[index]?.tuplet ?? null;
    let end = index + 1;
    if (tuplet !== null) {
      while (events[end]?.tuplet === tuplet) end += 1;
      found.push(...partRun(bar, index, end, tuplet));
    }
    index = end;
  }
  groups.set(bar.events, found);
  return found;
}

/** Parts a run of one tuplet. `reach[i]` is where the best last group before event `i` begins; smallest groups win. */
function partRun(bar: BarOfEvents<PipeEvent | ConcertEvent>, first: number, end: number, tuplet: 3 | 2): readonly TupletGroup[] {
  const starts = placedEvents(bar);
  const edge = (index: number): number => {
    const one = starts[index];
    const before = starts[index - 1];
    return one?.at ?? (before === undefined ? 0 : before.at + before.event.ticks);
  };
  const spans: readonly number[] = SPANS[tuplet];
  const longest = spans[spans.length - 1] ?? 0;
  const reach = new Map<number, number>([[first, first]]);
  for (let to = first + 2; to <= end; to += 1) {
    for (let from = to - 2; from >= first && edge(to) - edge(from) <= longest; from -= 1) {
      if (reach.has(from) && spans.includes(edge(to) - edge(from))) {
        reach.set(to, from);
        break;
      }
    }
  }
  let filled = end;
  while (!reach.has(filled)) filled -= 1;
  const made: TupletGroup[] = [];
  const groupOf = (from: number, to: number, complete: boolean): TupletGroup => ({
    tuplet,
    first: from,
    count: to - from,
    from: edge(from) as Ticks,
    ticks: (edge(to) - edge(from)) as Ticks,
    complete,
  });
  if (filled < end) made.push(groupOf(filled, end, false));
  for (let to = filled; to > first; to = reach.get(to) as number) made.push(groupOf(reach.get(to) as number, to, true));
  return made.reverse();
}
