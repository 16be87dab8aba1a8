import { semitoneOf } from "../pitch/semitone.ts";
import type { ConcertEvent, ConcertNote } from "../score/bar.ts";
import { concertEventsOf, doubledEvents } from "../score/doubling.ts";
import type { BarRange } from "../score/edit.ts";
import type { LineId } from "../score/line-id.ts";
import type { Line, Score } from "../score/score.ts";

/** Bars of silence after which a player wants to hear of his entry from the page (common practice: about so many). */
export const LONG_SILENCE = 8;

/** With fewer notes than this in the last bar, the bar before it is shown as well. */
const TELLING = 5;

/** Where small notes of another line stand before an entry. */
export interface Cue {
  readonly line: LineId;
  /** The last bar of the silence, or the last two. */
  readonly bars: BarRange;
}

/** Whose notes lead a player back in after a long silence; null where it is short or nobody plays. */
export function cueFor(score: Score, line: Line, silence: BarRange): Cue | null {
  if (silence.last - silence.first + 1 < LONG_SILENCE) return null;
  const heard = score.lines
    .filter((other) => other.id !== line.id)
    .map((other) => ({ other, rank: rankOf(score, other, silence.last) }))
    .filter(({ rank }) => rank > Number.NEGATIVE_INFINITY);
  const [best] = heard.toSorted((one, two) => two.rank - one.rank);
  if (best === undefined) return null;
  const notes = notesOf(cueEvents(score, best.other, silence.last)).length;
  const isTwo = notes < TELLING && notesOf(cueEvents(score, best.other, silence.last - 1)).length > 0;
  return { line: best.other.id, bars: { first: silence.last - (isTwo ? 1 : 0), last: silence.last } };
}

/** What a line plays in a bar, at concert pitch, the highest note of each chord alone. Kept with the line's own events. */
export function cueEvents(score: Score, line: Line, bar: number): readonly ConcertEvent[] {
  const events = line.kind === "concert" ? concertEventsOf(score, line, bar) : pipesAtConcertPitch(line, bar);
  const found = topLines.get(events);
  if (found !== undefined) return found;
  const made = events.map((event) => (event.kind === "note" ? { ...event, pitches: event.pitches.slice(-1) } : event));
  topLines.set(events, made);
  return made;
}

const topLines = new WeakMap<readonly ConcertEvent[], readonly ConcertEvent[]>();

function pipesAtConcertPitch(line: Line & { readonly kind: "pipes" }, bar: number): readonly ConcertEvent[] {
  const own = line.bars[bar];
  return own === undefined ? [] : doubledEvents(own, line.setup, 0);
}

/** Words tell most, then the pipes, then whoever moves, the higher the better. */
function rankOf(score: Score, line: Line, bar: number): number {
  const notes = notesOf(cueEvents(score, line, bar));
  if (notes.length === 0) return Number.NEGATIVE_INFINITY;
  const pitch = notes.reduce((sum, { pitches }) => sum + semitoneOf(pitches[0] as ConcertNote["pitches"][number]), 0) / notes.length;
  const isSung = notes.some(({ syllables }) => syllables.length > 0);
  return (isSung ? 3000 : line.kind === "pipes" ? 2000 : notes.length > 1 ? 1000 : 0) + pitch;
}

function notesOf(events: readonly ConcertEvent[]): readonly ConcertNote[] {
  return events.filter((event): event is ConcertNote => event.kind === "note");
}
