import type { ChanterNote } from "../pipes/chanter-note.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { concertPitchOf } from "../pipes/sounding.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { transposed } from "../pitch/transpose.ts";
import type { ConcertEvent, DoublingBar, PipeBar, PipeEvent } from "./bar.ts";
import type { LineEvent } from "./like-events.ts";
import { MOST_OCTAVES } from "./limits.ts";
import { pipeLineOf } from "./line-of.ts";
import { frameTicks } from "./meter.ts";
import type { ConcertLine, Line, Score } from "./score.ts";

interface Doubled {
  readonly setup: PipeSetup;
  readonly octaves: number;
  readonly events: readonly ConcertEvent[];
}

const doubled = new WeakMap<PipeBar, readonly Doubled[]>();

/** Players seldom double one pipe line in more octaves than this at once. */
const KEPT = 4;

/** What a player doubles from a bar of pipes: the same notes at concert pitch, without gracenotes. Kept for as long as the bar is. */
export function doubledEvents(bar: PipeBar, setup: PipeSetup, octaves: number): readonly ConcertEvent[] {
  const kept = doubled.get(bar) ?? [];
  const same = kept.find((one) => one.setup === setup && one.octaves === octaves);
  if (same !== undefined) return same.events;
  const events = bar.events.map((event) => doubledEvent(event, setup, octaves));
  doubled.set(bar, [{ setup, octaves, events }, ...kept].slice(0, KEPT));
  return events;
}

/** The concert pitch at which a player doubles a chanter note. */
export function doubledPitch(setup: PipeSetup, note: ChanterNote, octaves: number): ConcertPitch {
  return transposed(concertPitchOf(setup, note), octaves * 7, octaves * 12);
}

function doubledEvent(event: PipeEvent, setup: PipeSetup, octaves: number): ConcertEvent {
  if (event.kind === "rest") return event;
  const { ticks, tuplet, tied, syllables } = event;
  return { kind: "note", ticks, tuplet, pitches: [doubledPitch(setup, event.note, octaves)], tied, syllables };
}

const silences = new Map<number, readonly ConcertEvent[]>();

/** What a line plays in the bar at an index, doubling resolved; the identical list as long as nothing in it changes. */
export function eventsOf(score: Score, line: Line, bar: number): readonly LineEvent[] {
  return line.kind === "pipes" ? (line.bars[bar]?.events ?? []) : concertEventsOf(score, line, bar);
}

/**
 * What a player plays in the bar at an index: his own events, or those he doubles. The same list for the same bar, so it can be a cache's key.
 * A doubling of a line that is not there, or of octaves nobody has, is a rest; no edit makes one and reading a file refuses it.
 */
export function concertEventsOf(score: Score, line: ConcertLine, bar: number): readonly ConcertEvent[] {
  const own = line.bars[bar];
  if (own === undefined) return [];
  return own.kind === "own" ? own.events : eventsOfDoubling(score, own, bar);
}

function eventsOfDoubling(score: Score, doubling: DoublingBar, bar: number): readonly ConcertEvent[] {
  const pipes = pipeLineOf(score, doubling.of);
  const source = pipes?.bars[bar];
  if (pipes !== null && source !== undefined && Math.abs(doubling.octaves) <= MOST_OCTAVES)
    return doubledEvents(source, pipes.setup, doubling.octaves);
  const frame = score.frames[bar];
  return frame === undefined ? [] : silence(frameTicks(frame));
}

function silence(length: number): readonly ConcertEvent[] {
  const kept = silences.get(length);
  if (kept !== undefined) return kept;
  const made: readonly ConcertEvent[] = [{ kind: "rest", ticks: length as ConcertEvent["ticks"], tuplet: null }];
  if (silences.size < 200) silences.set(length, made);
  return made;
}
