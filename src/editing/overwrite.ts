import type { Tuplet } from "../score/bar.ts";
import { barAtTime, barStarts, scoreTicks } from "../score/bar-starts.ts";
import { eventsOf } from "../score/doubling.ts";
import { isPipeNote, type LineEvent, soundAlike } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import { lineOf } from "../score/line-of.ts";
import type { Line, Score } from "../score/score.ts";
import { tupletGroups } from "../score/tuplet-groups.ts";
import { isWritable } from "../score/written-values.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import type { Ticks } from "../units/ticks.ts";
import { type TimedEvent, timedEvents } from "./line-time.ts";
import { continued, pieceOf } from "./pieces.ts";
import { CUTS_TUPLET, NO_ROOM, NO_SUCH_BAR, TOO_SHORT } from "./refusals.ts";
import { withEvents } from "./with-bars.ts";

/** A tuplet group that stands in the way, with times from the start of the score. */
interface Zone {
  readonly from: number;
  readonly to: number;
  readonly tuplet: 3 | 2;
  /** Where its events begin, and its end. */
  readonly edges: readonly number[];
}

/** A piece of time that one written event fills. */
interface Piece {
  readonly from: number;
  readonly to: number;
  readonly tuplet: Tuplet;
}

/**
 * Puts events, one after the other, over a stretch of a line's time: what every edit of notes comes down to.
 * A note that is cut keeps its head (untied) and its tail (a note of its own, without gracenotes, words or strike-in).
 * An event that runs over a bar line, or over the edge of a tuplet that is only partly covered, is cut there and tied.
 * `fillers` fill the stretch exactly and may be tied among each other; a note that no like one follows comes out untied.
 */
export function overwritten(score: Score, id: LineId, from: number, to: number, fillers: readonly LineEvent[]): Outcome<Score> {
  const line = lineOf(score, id);
  if (line === null || from < 0 || to <= from) return NO_SUCH_BAR;
  if (to > scoreTicks(score.frames)) return NO_ROOM;
  const first = barAtTime(score.frames, from);
  const last = barAtTime(score.frames, to - 1);
  const before = barAtTime(score.frames, Math.max(0, from - 1));
  const outsides = new Map<number, Outside>();
  const zones: Zone[] = [];
  for (let bar = first; bar <= last; bar += 1) {
    const outside = outsideOf(score, line, bar, from, to);
    if (!outside.ok) return outside;
    outsides.set(bar, outside.value);
    zones.push(...zonesOf(score, line, bar));
  }
  const filled = fill(score, zones, from, to, fillers);
  if (!filled.ok) return filled;
  const changed = new Map<number, readonly LineEvent[]>();
  for (const [bar, { heads, tails }] of outsides) changed.set(bar, [...heads, ...(filled.value.get(bar) ?? []), ...tails]);
  if (before < first) changed.set(before, untiedAtEnd(eventsOf(score, line, before)));
  return done(withEvents(score, id, changed));
}

/** What is left of a bar on both sides of a stretch. */
interface Outside {
  readonly heads: readonly LineEvent[];
  readonly tails: readonly LineEvent[];
}

/** What is left of a bar's events outside a stretch. */
function outsideOf(score: Score, line: Line, bar: number, from: number, to: number): Outcome<Outside> {
  const heads: LineEvent[] = [];
  const tails: LineEvent[] = [];
  const events = wholeBar(score, line, bar);
  const end = barStarts(score.frames)[bar + 1] ?? 0;
  if (events.some((one) => one.to > end)) return refused("That bar is longer than its meter. Cut what runs over first.");
  for (const one of events) {
    if (one.to <= from) heads.push(one.to === from ? headOf(one.event, one.event.ticks) : one.event);
    else if (one.from < from) heads.push(headOf(one.event, from - one.from));
    if (one.from >= to) tails.push(one.event);
    else if (one.to > to) tails.push(tailOf(one.event, one.to - to));
    const cut = [from - one.from, one.to - to].filter((rest) => rest > 0 && rest < one.event.ticks);
    const isCut = one.from < to && one.to > from;
    if (isCut && cut.some((rest) => !isWritable(rest, one.event.tuplet))) return TOO_SHORT;
  }
  return done({ heads, tails });
}

/** A bar's events, filled up with a rest where they stop short of its end. */
function wholeBar(score: Score, line: Line, bar: number): readonly TimedEvent[] {
  const events = timedEvents(score, line, bar);
  const end = barStarts(score.frames)[bar + 1] ?? 0;
  const reached = events.at(-1)?.to ?? barStarts(score.frames)[bar] ?? 0;
  if (reached >= end) return events;
  return [...events, { from: reached, to: end, event: { kind: "rest", ticks: (end - reached) as Ticks, tuplet: null } }];
}

/** The beginning of an event that is cut short. */
function headOf(event: LineEvent, length: number): LineEvent {
  if (event.kind === "rest") return { ...event, ticks: length as Ticks };
  const cut = length < event.ticks;
  if (isPipeNote(event)) return { ...event, ticks: length as Ticks, tied: false, cutOff: cut ? false : event.cutOff };
  return { ...event, ticks: length as Ticks, tied: false };
}

/** The end of an event whose beginning was taken. */
function tailOf(event: LineEvent, length: number): LineEvent {
  return { ...continued(event), ticks: length as Ticks };
}

function untiedAtEnd(events: readonly LineEvent[]): readonly LineEvent[] {
  return events.map((event, index) => (index === events.length - 1 ? untied(event) : event));
}

function untied(event: LineEvent): LineEvent {
  return event.kind === "note" && event.tied ? { ...event, tied: false } : event;
}

/** The events that fill the stretch, by the bar they go into. */
function fill(
  score: Score,
  zones: readonly Zone[],
  from: number,
  to: number,
  fillers: readonly LineEvent[],
): Outcome<ReadonlyMap<number, readonly LineEvent[]>> {
  const found = new Map<number, LineEvent[]>();
  const partly = zones.filter((zone) => (zone.from < from && zone.to > from) || (zone.from < to && zone.to > to));
  let at = from;
  for (const [place, filler] of fillers.entries()) {
    const end = at + filler.ticks;
    const next = fillers[place + 1];
    const leadsOn = filler.kind === "note" && next?.kind === "note" && soundAlike(filler, next);
    const ending = leadsOn ? filler : untied(filler);
    const pieces = filler.tuplet === null ? cut(score, partly, at, end) : whole(score, partly, at, end, filler.tuplet);
    if (pieces === "cuts-tuplet") return CUTS_TUPLET;
    if (pieces.some((piece) => !isWritable(piece.to - piece.from, piece.tuplet))) return TOO_SHORT;
    pieces.forEach((piece, index) => {
      const bar = barAtTime(score.frames, piece.from);
      found.set(bar, [...(found.get(bar) ?? []), pieceOf(ending, piece.to - piece.from, piece.tuplet, index, pieces.length)]);
    });
    at = end;
  }
  if (at !== to) throw new RangeError(`The events last ${at - from} ticks, not the ${to - from} they are put over.`);
  return done(found);
}

/** A straight event cut at bar lines and at the edges of tuplets it covers partly. */
function cut(score: Score, partly: readonly Zone[], from: number, to: number): readonly Piece[] | "cuts-tuplet" {
  const inside = partly.filter((zone) => zone.from < to && zone.to > from);
  for (const zone of inside) {
    for (const edge of [from, to]) if (edge > zone.from && edge < zone.to && !mayCut(zone, edge)) return "cuts-tuplet";
  }
  const barLines = barStarts(score.frames).slice(barAtTime(score.frames, from), barAtTime(score.frames, to) + 1);
  const edges = new Set(
    [from, to, ...inside.flatMap((zone) => [zone.from, zone.to]), ...barLines].filter((edge) => edge >= from && edge <= to),
  );
  const ordered = [...edges].sort((one, other) => one - other);
  return ordered.slice(0, -1).map((edge, index) => {
    const zone = inside.find((one) => one.from <= edge && edge < one.to);
    return { from: edge, to: ordered[index + 1] as number, tuplet: zone?.tuplet ?? null };
  });
}

/** A tuplet may be cut where one of its notes begins, or at one of its two or three equal parts. */
function mayCut(zone: Zone, edge: number): boolean {
  const part = (zone.to - zone.from) / zone.tuplet;
  return zone.edges.includes(edge) || (edge - zone.from) % part === 0;
}

/** An event that is already part of a tuplet stays in one piece: inside one bar, and inside a group of its own kind or none. */
function whole(score: Score, partly: readonly Zone[], from: number, to: number, tuplet: 3 | 2): readonly Piece[] | "cuts-tuplet" {
  const oneBar = barAtTime(score.frames, from) === barAtTime(score.frames, to - 1);
  const fits = partly.every((zone) => zone.to <= from || zone.from >= to || (zone.tuplet === tuplet && zone.from <= from && zone.to >= to));
  return oneBar && fits ? [{ from, to, tuplet }] : "cuts-tuplet";
}

function zonesOf(score: Score, line: Line, bar: number): readonly Zone[] {
  const start = barStarts(score.frames)[bar] ?? 0;
  const events = timedEvents(score, line, bar);
  return tupletGroups({ events: eventsOf(score, line, bar) })
    .filter((group) => group.complete)
    .map((group) => ({
      from: start + group.from,
      to: start + group.from + group.ticks,
      tuplet: group.tuplet,
      edges: [...events.slice(group.first, group.first + group.count).map((one) => one.from), start + group.from + group.ticks],
    }));
}
