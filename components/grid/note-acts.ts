import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import type { Address } from "../../src/score/address.ts";
import { scoreTicks } from "../../src/score/bar-starts.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";
import { type Ticks, ticks } from "../../src/units/ticks.ts";
import { type Asked, addressAt, asked, noteChosen, stretchChosen } from "./asked.ts";
import { type HeldNote, heldNoteAt, notesIn, restAt } from "./chosen-notes.ts";
import { type GridStep, nearestStep, stepEntry, tupletOf } from "./grid-step.ts";

/*
 * What can be done to notes, whichever way the hand asks: mouse, finger, key or word come down to these, so that the same act is the same edit.
 * Times are ticks from the start of the score.
 */

/** Puts a note down. Past the end of the sketch a bar is added for it. */
export function placeNote(score: Score, line: LineId, from: number, to: number, note: ChanterNote, step: GridStep): Asked {
  const end = scoreTicks(score.frames);
  const grow: Edit[] = from >= end ? [{ kind: "insert-bars", before: score.frames.length, count: 1 }] : [];
  const at = from >= end ? { line, bar: score.frames.length, at: ticks(0) } : addressAt(score, line, from);
  const length = to - from;
  const place: Edit = { kind: "place", at, ticks: ticks(length), tuplet: tupletOf(length, step), content: { kind: "pipes", note } };
  return { ...asked([...grow, place], { kind: "note", at }), label: asked([place]).label };
}

/** Gives a note another pitch. */
export function changePitch(score: Score, line: LineId, held: HeldNote, note: ChanterNote): Asked | null {
  if (held.note === note) return null;
  const at = addressAt(score, line, held.from);
  return asked([{ kind: "repitch", at, content: { kind: "pipes", note } }], { kind: "note", at });
}

/** Gives every note of a stretch another pitch, as one step. */
export function changePitches(
  score: Score,
  line: LineId,
  from: number,
  to: number,
  other: (note: ChanterNote) => ChanterNote,
): Asked | null {
  const edits = notesIn(score, line, from, to).map(
    (held): Edit => ({
      kind: "repitch",
      at: addressAt(score, line, held.from),
      content: { kind: "pipes", note: other(held.note) },
    }),
  );
  if (edits.length === 0) return null;
  return asked(edits, stretchChosen(score, line, from, to), "change the pitch of the stretch");
}

/** Takes a note to another time and pitch. */
export function moveNote(score: Score, line: LineId, held: HeldNote, from: number, note: ChanterNote): Asked | null {
  if (from === held.from) return changePitch(score, line, held, note);
  const latest = scoreTicks(score.frames) - (held.to - held.from);
  const start = Math.max(0, Math.min(from, latest));
  if (start === held.from) return changePitch(score, line, held, note);
  const edit: Edit = {
    kind: "move",
    at: addressAt(score, line, held.from),
    to: addressAt(score, line, start),
    content: { kind: "pipes", note },
  };
  return asked([edit], noteChosen(score, line, start));
}

/** Moves the end of a note. */
export function moveEnd(score: Score, line: LineId, held: HeldNote, to: number): Asked | null {
  const end = Math.min(to, scoreTicks(score.frames));
  if (end <= held.from || end === held.to) return null;
  const at = addressAt(score, line, held.from);
  const edit: Edit = { kind: "resize", at, ticks: ticks(end - held.from) };
  return asked([edit], { kind: "note", at }, end > held.to ? "make longer" : "make shorter");
}

/**
 * Moves the start of a note. Where a note touches it from before, that one's end moves with it; out of a silence the note alone grows or
 * shrinks, and keeps its gracenotes and words.
 */
export function moveStart(score: Score, line: LineId, held: HeldNote, from: number): Asked | null {
  if (from === held.from || from >= held.to || from < 0) return null;
  const before = heldNoteAt(score, line, held.from - 1);
  const label = from < held.from ? "make longer" : "make shorter";
  const chosen = noteChosen(score, line, from);
  if (before !== null && !before.event.cutOff) {
    if (from <= before.from) return null;
    const edit: Edit = { kind: "resize", at: addressAt(score, line, before.from), ticks: ticks(from - before.from) };
    return asked([edit], chosen, label);
  }
  const old = addressAt(score, line, held.from);
  const now = addressAt(score, line, from);
  if (from < held.from) {
    const content = { kind: "pipes", note: held.note } as const;
    return asked(
      [
        { kind: "move", at: old, to: now, content },
        { kind: "resize", at: now, ticks: ticks(held.to - from) },
      ],
      chosen,
      label,
    );
  }
  const edits: Edit[] = [{ kind: "clear", from: old, ticks: ticks(from - held.from) }];
  if (held.event.gracenotes.length > 0) edits.push({ kind: "gracenotes", at: now, gracenotes: held.event.gracenotes });
  if (held.event.syllables.length > 0) edits.push({ kind: "syllables", at: now, syllables: held.event.syllables });
  return asked(edits, chosen, label);
}

/** Longer or shorter by so many steps; the end stays on the steps. */
export function lengthenBy(score: Score, line: LineId, held: HeldNote, steps: number, step: GridStep): Asked | null {
  const wanted = held.to + steps * stepEntry(step).ticks;
  const snapped = nearestStep(score.frames, wanted, step);
  const end = (snapped - held.to) * steps > 0 ? snapped : wanted;
  return end <= held.from ? null : moveEnd(score, line, held, end);
}

/** Divides a note at a time inside it; where the time is at its edge, in the middle. */
export function splitNote(score: Score, line: LineId, held: HeldNote, time: number): Asked {
  const at = addressAt(score, line, held.from);
  const inside = time > held.from && time < held.to;
  const length = inside ? time - held.from : middleOf(held.to - held.from);
  return asked([{ kind: "split", at, ticks: ticks(length) }], noteChosen(score, line, held.from + length));
}

/** Half of a length, on a 32nd where it can be. */
function middleOf(length: number): number {
  const half = length / 2;
  return half % 120 === 0 || half < 120 ? Math.floor(half) : Math.round(half / 120) * 120;
}

/** Ties a note to the like note after it, or, where it is tied already, unties it at the sign the hand is on. */
export function tieNote(score: Score, line: LineId, held: HeldNote, at: number): Asked {
  const end = held.to;
  const next = heldNoteAt(score, line, end);
  const wantsTie = next !== null && next.note === held.note;
  const isOne = held.event.ticks === end - held.from;
  const before = held.from > 0 ? heldNoteAt(score, line, held.from - 1) : null;
  // The second of two like notes, as after a split, is tied to the first.
  if (!wantsTie && isOne && before !== null && before.note === held.note && before.to === held.from) {
    return asked([{ kind: "tie", at: addressAt(score, line, before.from), tied: true }], noteChosen(score, line, before.from));
  }
  const address = addressAt(score, line, wantsTie ? held.from : at);
  return asked([{ kind: "tie", at: address, tied: wantsTie || isOne }], noteChosen(score, line, held.from));
}

/** Empties a stretch of time. */
export function removeTime(score: Score, line: LineId, from: number, to: number): Asked {
  return asked([{ kind: "clear", from: addressAt(score, line, from), ticks: (to - from) as Ticks }], { kind: "nothing" }, "delete");
}

/** Holds the note before through the rest at a time. */
export function holdThrough(score: Score, line: LineId, time: number): Asked | null {
  const rest = restAt(score, line, time);
  return rest === null ? null : asked([{ kind: "hold", at: addressAt(score, line, rest.from) }], { kind: "nothing" });
}

/** Gracenotes for a note, and for those after it that a figure spans. */
export interface GracenotesTaken {
  readonly gracenotes: readonly PlainNote[];
  readonly further: readonly { readonly address: Address; readonly gracenotes: readonly PlainNote[] }[];
}

/** Gives a note its gracenotes, none for an empty list, and with a figure those of the notes it spans. */
export function graceNote(score: Score, line: LineId, held: HeldNote, { gracenotes, further }: GracenotesTaken): Asked {
  const at = addressAt(score, line, held.from);
  const others = further.map((one): Edit => ({ kind: "gracenotes", at: one.address, gracenotes: one.gracenotes }));
  return asked([{ kind: "gracenotes", at, gracenotes }, ...others], { kind: "note", at });
}

/** Starts the chanter with a note, or no longer. */
export function markStrikeIn(score: Score, line: LineId, held: HeldNote): Asked {
  const at = addressAt(score, line, held.from);
  return asked([{ kind: "strike-in", at, on: !held.event.strikeIn }], { kind: "note", at });
}

/** Stops the chanter after a note, or no longer. */
export function markCutOff(score: Score, line: LineId, held: HeldNote): Asked {
  const at = addressAt(score, line, held.from);
  const last = addressAt(score, line, held.to - 1);
  return asked([{ kind: "cut-off", at: last, on: !held.event.cutOff }], { kind: "note", at });
}
