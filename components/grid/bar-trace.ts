import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import type { EmbellishmentPlacement } from "../../src/pipes/embellishment.ts";
import { placementOf } from "../../src/pipes/embellishments.ts";
import type { PipeBar, PipeNote } from "../../src/score/bar.ts";
import { lengthOf, placedEvents } from "../../src/score/placed-events.ts";

/** A note held, in ticks from the start of its bar. */
export interface Stroke {
  readonly from: number;
  readonly to: number;
  readonly note: ChanterNote;
  /** Goes on from the stroke before without anything between: the two are one. */
  readonly goesOn: boolean;
  /** How many gracenotes begin with it: it is held once they are over. */
  readonly onBeat: number;
  /** How many take their time from its end, before the beat of the next note. */
  readonly ahead: number;
}

/** Fingers move: one note gives way to another, by way of gracenotes or at once. */
export interface Change {
  readonly at: number;
  /** Null where the chanter was silent. */
  readonly from: ChanterNote | null;
  readonly to: ChanterNote;
  readonly gracenotes: readonly PlainNote[];
  /** Whether the gracenotes begin at `at` or end there. */
  readonly placement: EmbellishmentPlacement;
  /** How long what gives them their time lasts in this bar, ticks: the note they lead into, or what sounds before it. */
  readonly room: number;
}

/** A rest sign through which the chanter goes on sounding. */
export interface Held {
  readonly from: number;
  readonly to: number;
  readonly note: ChanterNote;
  /** As of a note. */
  readonly ahead: number;
}

/** Where the chanter starts or stops. */
export interface Upright {
  readonly at: number;
  readonly note: ChanterNote;
  readonly kind: "strike-in" | "cut-off";
}

/** What one bar adds to the trace. */
export interface BarTrace {
  readonly strokes: readonly Stroke[];
  readonly changes: readonly Change[];
  readonly held: readonly Held[];
  readonly uprights: readonly Upright[];
}

/** What is being laid out, last thing last. */
type Growing<Part> = { -readonly [Key in keyof Part]: Part[Key] };

/**
 * The trace of a bar: where a note is held, where fingers move, and where the chanter starts and stops. Gracenotes that come before the
 * first beat of the next bar belong to this one, which gives them their time.
 *
 * @param carried the note that sounds into the bar, or null
 * @param next the note that begins the bar after it, or null
 */
export function traceOf(bar: PipeBar, carried: ChanterNote | null, next: PipeNote | null = null): BarTrace {
  const strokes: Growing<Stroke>[] = [];
  const changes: Change[] = [];
  const held: Growing<Held>[] = [];
  const uprights: Upright[] = [];
  let sounding = carried;
  let giver: Growing<Stroke> | Growing<Held> | null = null;
  const giveAhead = (at: number, from: ChanterNote, { note, gracenotes }: PipeNote) => {
    if (giver === null) return;
    giver.ahead = gracenotes.length;
    changes.push({ at, from, to: note, gracenotes, placement: "before-beat", room: giver.to - giver.from });
  };
  for (const { at, event } of placedEvents(bar)) {
    const to = at + event.ticks;
    if (event.kind === "rest") {
      if (sounding !== null) {
        giver = { from: at, to, note: sounding, ahead: 0 };
        held.push(giver);
      }
      continue;
    }
    const { note, gracenotes } = event;
    const goesOn = sounding === note && gracenotes.length === 0 && !event.strikeIn;
    const isAhead = sounding !== null && comesAhead(event);
    if (event.strikeIn) uprights.push({ at, note, kind: "strike-in" });
    if (isAhead) giveAhead(at, sounding as ChanterNote, event);
    else if (!goesOn && (sounding !== null || gracenotes.length > 0)) {
      changes.push({ at, from: sounding, to: note, gracenotes, placement: "on-beat", room: event.ticks });
    }
    const stroke = { from: at, to, note, goesOn, onBeat: isAhead ? 0 : gracenotes.length, ahead: 0 };
    strokes.push(stroke);
    giver = stroke;
    if (event.cutOff) uprights.push({ at: to, note, kind: "cut-off" });
    sounding = event.cutOff ? null : note;
  }
  if (sounding !== null && next !== null && comesAhead(next)) giveAhead(lengthOf(bar), sounding, next);
  return { strokes, changes, held, uprights };
}

/** The note that a bar begins with, where its gracenotes may come before the beat and so lie in the bar before; null otherwise. */
export function leadsFromBefore(bar: PipeBar | undefined): PipeNote | null {
  const first = bar?.events[0];
  return first?.kind === "note" && comesAhead(first) ? first : null;
}

/** Whether a note's gracenotes come before the beat where something sounds before it. */
export function comesAhead({ gracenotes }: PipeNote): boolean {
  return gracenotes.length > 0 && placementOf(gracenotes) === "before-beat";
}
