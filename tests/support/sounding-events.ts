import { hertzOf } from "../../src/pipes/sounding.ts";
import { bandAToMatch } from "../../src/pipes/tempering.ts";
import { nearestSemitone } from "../../src/pitch/reference-pitch.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import type { ConcertEvent, PipeEvent } from "../../src/score/bar.ts";
import { concertEventsOf } from "../../src/score/doubling.ts";
import { isPipeNote, type LineNote, soundAlike } from "../../src/score/like-events.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { playedOrder } from "../../src/score/played-order.ts";
import type { Line, Score } from "../../src/score/score.ts";

/** A note as the ear has it, ties joined, repeats played. Times in quarters from the start. */
export interface SoundingEvent {
  readonly from: number;
  readonly to: number;
  /** Semitones, MIDI numbering, lowest first; on the pipes the one nearest to the hertz that truly sound, for a band that has low A under its name. */
  readonly semitones: readonly number[];
  /** How many gracenotes come before it. */
  readonly gracenotes: number;
}

/**
 * What a line sounds, straight from hertz and concert pitches: a second opinion on whatever writes parts and transposes them.
 * A tie holds over to the bar that is played next, where that is the bar written next.
 */
export function soundingEvents(score: Score, line: Line): readonly SoundingEvent[] {
  const events: (SoundingEvent & PlayedNote)[] = [];
  let start = 0;
  for (const bar of playedOrder(score.frames)) {
    let at = start;
    for (const event of eventsOf(score, line, bar)) {
      const to = at + event.ticks / 960;
      const last = events.at(-1);
      if (event.kind === "note") {
        if (last !== undefined && holdsOver(last, { note: event, bar, from: at })) events.splice(-1, 1, { ...last, to, note: event, bar });
        else events.push({ from: at, to, semitones: semitonesOf(line, event), gracenotes: graceCount(event), note: event, bar });
      }
      at = to;
    }
    start += frameTicks(score.frames[bar] as Score["frames"][number]) / 960;
  }
  return events.map(({ from, to, semitones, gracenotes }) => ({ from, to, semitones, gracenotes }));
}

/** A written note in the bar where it is played. */
interface PlayedNote {
  readonly note: LineNote;
  readonly bar: number;
  readonly from: number;
}

function holdsOver(last: PlayedNote & { readonly to: number }, next: PlayedNote): boolean {
  const follows = Math.abs(last.to - next.from) < 1e-9 && (next.bar === last.bar || next.bar === last.bar + 1);
  return follows && last.note.tied && soundAlike(last.note, next.note);
}

function eventsOf(score: Score, line: Line, bar: number): readonly (PipeEvent | ConcertEvent)[] {
  return line.kind === "pipes" ? (line.bars[bar]?.events ?? []) : concertEventsOf(score, line, bar);
}

function semitonesOf(line: Line, note: LineNote): readonly number[] {
  if (!isPipeNote(note)) return note.pitches.map(semitoneOf).toSorted((a, b) => a - b);
  if (line.kind !== "pipes") throw new RangeError("a chanter note on another line");
  return [nearestSemitone(hertzOf(line.setup, note.note), bandAToMatch(line.setup)).semitone];
}

function graceCount(note: LineNote): number {
  return isPipeNote(note) ? note.gracenotes.length : 0;
}
