import { type BarSign, barSigns } from "../engraving/bar-signs.ts";
import { barContextOf } from "../engraving/part-facts.ts";
import { PLAIN_STYLE } from "../engraving/part-style.ts";
import { eventsOf } from "../score/doubling.ts";
import type { Frame } from "../score/frame.ts";
import { type LineEvent, type LineNote, soundAlike } from "../score/like-events.ts";
import { tupletGroups } from "../score/tuplet-groups.ts";
import { writtenValues } from "../score/written-values.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Part } from "./musicxml-part.ts";

/** A sign as it is engraved, with what a file says besides: where ties and tuplets begin and end. */
export interface Sign extends BarSign {
  readonly tiedFrom: boolean;
  readonly tiedTo: boolean;
  readonly isFirstOfEvent: boolean;
  /** Where a tuplet's figure begins and ends. */
  readonly opensTuplet: boolean;
  readonly closesTuplet: boolean;
  /** What it is a sign of. */
  readonly source: LineEvent;
}

/** Bars of a file have no width and stand in no system. */
const NOWHERE = { spacing: "page", width: 0, firstInSystem: false, lastInSystem: false } as const;

/** The signs of a part's bar, in order, accidentals and hole charts where the printed page has them. */
export function signsOf(part: Part, bar: number): readonly Sign[] {
  const events = eventsOf(part.score, part.line, bar);
  const tuplets = tupletGroups({ events } as Parameters<typeof tupletGroups>[0]);
  const frame = part.score.frames[bar] as Frame;
  const signs = barSigns(
    events,
    barContextOf(part.score, part.line, bar, { ...NOWHERE, style: { ...PLAIN_STYLE, charts: part.charts } }),
  ).flatMap((sign) => restsOfShortBar(sign, frame));
  return signs.map((sign, index): Sign => {
    const place = sign.event;
    const isFirst = signs[index - 1]?.event !== place;
    const isLast = signs[index + 1]?.event !== place;
    const tie = tiesAround(part, bar, place);
    return {
      ...sign,
      source: events[place] as LineEvent,
      tiedFrom: sign.heads.length > 0 && (!isFirst || tie.from),
      tiedTo: sign.heads.length > 0 && (!isLast || tie.to),
      isFirstOfEvent: isFirst,
      opensTuplet: isFirst && tuplets.some(({ first }) => first === place),
      closesTuplet: isLast && tuplets.some(({ first, count }) => first + count - 1 === place),
    };
  });
}

/** A whole bar's rest is one as long as the meter; one that fills a pickup or another short bar has values of its own. */
function restsOfShortBar(sign: BarSign, frame: Frame): readonly BarSign[] {
  if (!sign.wholeBar || frame.short === null) return [sign];
  let at: number = sign.at;
  return writtenValues(sign.at, sign.value.ticks, null, frame, "rest").map((value) => {
    const here = { ...sign, at: at as Ticks, value, wholeBar: false };
    at += value.ticks;
    return here;
  });
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
function noteAt({ score, line }: Part, bar: number, index: number): LineNote | null {
  const events = eventsOf(score, line, bar);
  const event =
    index < 0 ? eventsOf(score, line, bar - 1).at(-1) : index < events.length ? events[index] : eventsOf(score, line, bar + 1)[0];
  return event?.kind === "note" ? event : null;
}
