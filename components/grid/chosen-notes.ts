import { type Chain, chainAt, eventAtTime, isNote, lineIn } from "../../src/editing/line-time.ts";
import type { Selection } from "../../src/editing/selection.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeNote } from "../../src/score/bar.ts";
import { barAtTime, timeOf } from "../../src/score/bar-starts.ts";
import type { BarRange } from "../../src/score/edit.ts";
import { isPipeNote } from "../../src/score/like-events.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";

/** A note of the pipes with all it is tied to, in ticks from the start of the score. */
export interface HeldNote {
  readonly from: number;
  readonly to: number;
  readonly note: ChanterNote;
  readonly event: PipeNote;
}

/** The note that sounds by its own sign at a time, or null. A rest that is held through is none. */
export function heldNoteAt(score: Score, line: LineId, time: number): HeldNote | null {
  const chain: Chain | null = time < 0 ? null : chainAt(score, lineIn(score, line), time);
  if (chain === null || !isPipeNote(chain.note)) return null;
  return { from: chain.from, to: chain.to, note: chain.note.note, event: chain.note };
}

/** The chosen note on a line; null when none is chosen, or none is there any more. */
export function chosenNote(score: Score, line: LineId, selection: Selection): HeldNote | null {
  if (selection.kind !== "note" || selection.at.line !== line || selection.at.bar >= score.frames.length) return null;
  return heldNoteAt(score, line, timeOf(score.frames, selection.at));
}

/** The chosen stretch on a line, in ticks from the start of the score; null when there is none. */
export function chosenStretch(score: Score, line: LineId, selection: Selection): { readonly from: number; readonly to: number } | null {
  if (selection.kind !== "stretch" || selection.line !== line) return null;
  const from = timeOf(score.frames, selection.from);
  const to = timeOf(score.frames, selection.to);
  return to > from ? { from, to } : null;
}

/** What is chosen as a stretch: the stretch, or the note from its start to its end. */
export function chosenTime(score: Score, line: LineId, selection: Selection): { readonly from: number; readonly to: number } | null {
  const note = chosenNote(score, line, selection);
  return note === null ? chosenStretch(score, line, selection) : { from: note.from, to: note.to };
}

/** The bars that a stretch of time lies in. */
export function barsOf(score: Score, from: number, to: number): BarRange {
  return { first: barAtTime(score.frames, from), last: barAtTime(score.frames, Math.max(from, to - 1)) };
}

/** Every note that begins in a stretch, in order. */
export function notesIn(score: Score, line: LineId, from: number, to: number): readonly HeldNote[] {
  const notes: HeldNote[] = [];
  for (let time = from; time < to; ) {
    const held = heldNoteAt(score, line, time);
    if (held !== null && held.from >= from) notes.push(held);
    const event = eventAtTime(score, lineIn(score, line), time);
    if (held === null && event === null) break;
    time = held?.to ?? event?.to ?? to;
  }
  return notes;
}

/** Whether a line has no note at all. */
export function isEmpty(score: Score, line: LineId): boolean {
  const found = lineIn(score, line);
  return found.kind === "pipes" && found.bars.every((bar) => bar.events.every((event) => event.kind === "rest"));
}

/** The rest that stands at a time, or null. */
export function restAt(score: Score, line: LineId, time: number): { readonly from: number; readonly to: number } | null {
  const event = eventAtTime(score, lineIn(score, line), time);
  return event === null || isNote(event) ? null : { from: event.from, to: event.to };
}
