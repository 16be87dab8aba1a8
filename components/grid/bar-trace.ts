import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import type { PipeBar } from "../../src/score/bar.ts";
import { placedEvents } from "../../src/score/placed-events.ts";

/** A note held, in ticks from the start of its bar. */
export interface Stroke {
  readonly from: number;
  readonly to: number;
  readonly note: ChanterNote;
  /** Goes on from the stroke before without anything between: the two are one. */
  readonly goesOn: boolean;
  /** What is played before the note is held. */
  readonly gracenotes: readonly PlainNote[];
}

/** Fingers move: one note gives way to another, by way of gracenotes or at once. */
export interface Change {
  readonly at: number;
  /** Null where the chanter was silent. */
  readonly from: ChanterNote | null;
  readonly to: ChanterNote;
  readonly gracenotes: readonly PlainNote[];
}

/** A rest sign through which the chanter goes on sounding. */
export interface Held {
  readonly from: number;
  readonly to: number;
  readonly note: ChanterNote;
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

/**
 * The trace of a bar: where a note is held, where fingers move, and where the chanter starts and stops.
 *
 * @param carried the note that sounds into the bar, or null
 */
export function traceOf(bar: PipeBar, carried: ChanterNote | null): BarTrace {
  const strokes: Stroke[] = [];
  const changes: Change[] = [];
  const held: Held[] = [];
  const uprights: Upright[] = [];
  let sounding = carried;
  for (const { at, event } of placedEvents(bar)) {
    const to = at + event.ticks;
    if (event.kind === "rest") {
      if (sounding !== null) held.push({ from: at, to, note: sounding });
      continue;
    }
    const goesOn = sounding === event.note && event.gracenotes.length === 0 && !event.strikeIn;
    if (event.strikeIn) uprights.push({ at, note: event.note, kind: "strike-in" });
    if (!goesOn && (sounding !== null || event.gracenotes.length > 0)) {
      changes.push({ at, from: sounding, to: event.note, gracenotes: event.gracenotes });
    }
    strokes.push({ from: at, to, note: event.note, goesOn, gracenotes: event.gracenotes });
    if (event.cutOff) uprights.push({ at: to, note: event.note, kind: "cut-off" });
    sounding = event.cutOff ? null : event.note;
  }
  return { strokes, changes, held, uprights };
}
