import { writtenSpellingOf } from "../pipes/written-pitch.ts";
import type { Spelling } from "../pitch/concert-pitch.ts";
import { spellingOf } from "../pitch/spelling.ts";
import { inverted, transposedSpelling } from "../pitch/transpose.ts";
import type { ConcertEvent, PipeEvent } from "../score/bar.ts";
import type { Frame } from "../score/frame.ts";
import { isPipeNote, type LineNote, soundAlike } from "../score/like-events.ts";
import { frameTicks } from "../score/meter.ts";
import { placedEvents } from "../score/placed-events.ts";
import { tupletGroups } from "../score/tuplet-groups.ts";
import { type WrittenValue, writtenValues } from "../score/written-values.ts";
import type { Ticks } from "../units/ticks.ts";
import { type Part, partEvents, partTransposition } from "./musicxml-part.ts";

/** One note, chord or rest as it stands in a part: an event has several where no single value can show it. */
export interface Sign {
  /** From the start of the bar. */
  readonly at: Ticks;
  readonly value: WrittenValue;
  /** As the player reads them, lowest first; none is a rest. */
  readonly pitches: readonly Spelling[];
  readonly tiedFrom: boolean;
  readonly tiedTo: boolean;
  readonly event: PipeEvent | ConcertEvent;
  readonly isFirstOfEvent: boolean;
  readonly isLastOfEvent: boolean;
  /** Where a tuplet's bracket begins and ends. */
  readonly opensTuplet: boolean;
  readonly closesTuplet: boolean;
  /** A rest as long as its bar. */
  readonly isBarRest: boolean;
}

/**
 * The signs of a part's bar, in order. They fill the bar.
 * @throws RangeError when there is no such bar.
 */
export function signsOf(part: Part, bar: number): readonly Sign[] {
  const frame = part.score.frames[bar];
  if (frame === undefined) throw new RangeError(`There is no bar ${bar} among ${part.score.frames.length}.`);
  const events = partEvents(part, bar);
  const tuplets = tupletGroups({ events });
  return placedEvents({ events }).flatMap(({ at, index, event }) => {
    const tie = tiesAround(part, bar, index);
    const values = valuesOf(event, at, frame);
    const pitches = pitchesOf(part, frame, event);
    let moment = at;
    return values.map((value, place): Sign => {
      const [isFirst, isLast] = [place === 0, place === values.length - 1];
      const sign = {
        at: moment,
        value,
        pitches,
        tiedFrom: event.kind === "note" && (!isFirst || tie.from),
        tiedTo: event.kind === "note" && (!isLast || tie.to),
        event,
        isFirstOfEvent: isFirst,
        isLastOfEvent: isLast,
        opensTuplet: isFirst && tuplets.some((group) => group.first === index),
        closesTuplet: isLast && tuplets.some((group) => group.first + group.count - 1 === index),
        isBarRest: event.kind === "rest" && events.length === 1 && frame.short === null,
      };
      moment = (moment + value.ticks) as Ticks;
      return sign;
    });
  });
}

/** A bar of rest is one sign whatever the meter; everything else is divided as it is printed. */
function valuesOf(event: PipeEvent | ConcertEvent, at: Ticks, frame: Frame): readonly WrittenValue[] {
  if (event.kind === "rest" && event.ticks === frameTicks(frame) && frame.short === null) {
    return [{ base: 1, dots: 0, tuplet: null, ticks: event.ticks }];
  }
  return writtenValues(at, event.ticks, event.tuplet, frame);
}

function pitchesOf(part: Part, frame: Frame, event: PipeEvent | ConcertEvent): readonly Spelling[] {
  if (event.kind === "rest") return [];
  if (isPipeNote(event)) return [writtenSpellingOf(event.note)];
  const { diatonic, chromatic } = inverted(partTransposition(part, frame));
  return event.pitches.map((pitch) => transposedSpelling(spellingOf(pitch), diatonic, chromatic));
}

/** Whether the event at a place is tied from the one before, and to the one after; over a bar line too. A tie to another note is none. */
function tiesAround(part: Part, bar: number, index: number): { readonly from: boolean; readonly to: boolean } {
  const note = noteAt(part, bar, index);
  return { from: holdsOver(noteAt(part, bar, index - 1), note), to: holdsOver(note, noteAt(part, bar, index + 1)) };
}

function holdsOver(first: LineNote | null, second: LineNote | null): boolean {
  return first !== null && second !== null && first.tied && soundAlike(first, second);
}

/** The note at a place of a bar, where -1 is the last of the bar before and one past the end is the first of the next. Null for a rest. */
function noteAt(part: Part, bar: number, index: number): LineNote | null {
  const events = partEvents(part, bar);
  const event = index < 0 ? partEvents(part, bar - 1).at(-1) : index < events.length ? events[index] : partEvents(part, bar + 1)[0];
  return event?.kind === "note" ? event : null;
}
