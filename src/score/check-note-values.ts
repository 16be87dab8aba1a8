import { TICKS_PER_QUARTER, ticks } from "../units/ticks.ts";
import type { ConcertEvent, PipeEvent } from "./bar.ts";
import type { Edit } from "./edit.ts";
import type { Finding } from "./finding.ts";
import type { LocalFinding, Place } from "./local-finding.ts";
import { LEAST_TICKS } from "./metric-group.ts";
import { type BarOfEvents, type PlacedEvent, placedEvents } from "./placed-events.ts";
import { type TupletGroup, tupletGroups } from "./tuplet-groups.ts";
import { isWritable } from "./written-values.ts";

type Cure = Finding["cures"][number];

/** Half of the shortest value: dotted 32nds reach every moment on this grid. */
const GRID = LEAST_TICKS / 2;

/** Where a tuplet that is cleared may end, coarsest first: an eighth, a 16th, a 32nd, the grid. */
const EDGES = [TICKS_PER_QUARTER / 2, TICKS_PER_QUARTER / 4, LEAST_TICKS, GRID] as const;

/**
 * Lengths in a bar that no note value shows. The cure of one that ends off the grid makes it that much longer; its neighbour, which begins
 * where it ends, is cured with it.
 *
 * @param isTiedInto whether the bar's first note is held from the bar before, and so longer than it shows here
 */
export function noteValueFindings(bar: BarOfEvents<PipeEvent | ConcertEvent>, isTiedInto: boolean): readonly LocalFinding[] {
  const events = placedEvents(bar);
  const unwritable = events
    .filter(({ event }) => !isWritable(event.ticks, event.tuplet))
    .map(
      ({ at, index }): LocalFinding => ({
        kind: "note-value",
        at,
        message: "No note value lasts as long as this. Make it longer or shorter.",
        cures: (place) => lengthCure(events, index, isTiedInto, place) ?? beginningCure(events, index, isTiedInto, place) ?? [],
      }),
    );
  const broken = tupletGroups(bar)
    .filter((group) => !group.complete)
    .map((group): LocalFinding => {
      const name = group.tuplet === 3 ? "triplet" : "duplet";
      return {
        kind: "note-value",
        at: group.from,
        message: `This ${name} is not filled. Add what it lacks, or clear it.`,
        cures: (place) => clearCure(events, group, place),
      };
    });
  return [...unwritable, ...broken];
}

function lengthCure(events: readonly PlacedEvent[], index: number, isTiedInto: boolean, place: Place): readonly Cure[] | null {
  const edits = onToGrid(events, index, isTiedInto, place);
  return edits && [{ label: "Make it longer", edits }];
}

/** What begins off the grid begins on it when what stands before it is made longer. */
function beginningCure(events: readonly PlacedEvent[], index: number, isTiedInto: boolean, place: Place): readonly Cure[] | null {
  const edits = onToGrid(events, index - 1, isTiedInto, place);
  return edits && [{ label: "Begin it later", edits }];
}

/** The edit that ends an event on the grid, a little later than now; null where it would not, or where either of the two could still not be written. */
function onToGrid(events: readonly PlacedEvent[], index: number, isTiedInto: boolean, place: Place): readonly Edit[] | null {
  const [before, one, next] = [events[index - 1], events[index], events[index + 1]];
  if (one === undefined || next === undefined || one.event.tuplet !== null || next.event.tuplet !== null) return null;
  const end = one.at + one.event.ticks;
  const later = Math.max(Math.ceil(end / GRID) * GRID, one.at + LEAST_TICKS);
  const length = ticks(later - one.at);
  const left = next.at + next.event.ticks - later;
  if (later === end || !isWritable(length, null) || !isWritable(left, null)) return null;
  if (one.event.kind === "rest") return [{ kind: "clear", from: place(0, one.at), ticks: length }];
  // Making a note longer counts from where its tie begins, and so would have to know how long that is.
  const isHeld = one.event.tied || (before === undefined ? isTiedInto : before.event.kind === "note" && before.event.tied);
  return isHeld ? null : [{ kind: "resize", at: place(0, one.at), ticks: length }];
}

/** A rest in place of the tuplet, up to the next moment from which what follows can be written. */
function clearCure(events: readonly PlacedEvent[], { first, count, from, ticks: lasts }: TupletGroup, place: Place): readonly Cure[] {
  const next = events[first + count];
  const end = from + lasts;
  const to = EDGES.map((edge) => Math.ceil(end / edge) * edge).find((moment) => {
    const left = next === undefined ? end - moment : next.at + next.event.ticks - moment;
    const isFree = left === 0 || (next !== undefined && next.event.tuplet === null && isWritable(left, null));
    return isFree && isWritable(moment - from, null);
  });
  return to === undefined ? [] : [{ label: "Clear it", edits: [{ kind: "clear", from: place(0, from), ticks: ticks(to - from) }] }];
}
