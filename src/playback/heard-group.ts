import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { seconds } from "../units/seconds.ts";
import { ticks } from "../units/ticks.ts";
import type { ChanterSpan } from "./chanter-spans.ts";
import { USUAL_GRACENOTES } from "./gracenote-time.ts";
import { type AdornedNote, pitchSteps } from "./pitch-steps.ts";

/** Gracenotes to be heard between two notes. */
export interface GroupToHear {
  readonly setup: PipeSetup;
  /** What sounds before them, and for how long at the tempo in force, seconds; null after silence. */
  readonly before: { readonly note: ChanterNote; readonly seconds: number } | null;
  readonly notes: readonly NoteToHear[];
}

/** A note of a group to be heard: one, or of a figure several. */
export interface NoteToHear {
  readonly note: ChanterNote;
  /** In the order they are played. */
  readonly gracenotes: readonly PlainNote[];
  /** How long it lasts at the tempo in force, seconds. */
  readonly seconds: number;
}

/** Longer notes are cut to this, seconds, so that what leads in and out is not waited for. They still give a group all its time. */
const LEAD_IN = 0.6;
const HELD = 1.2;

/** How a group sounds: the end of the note before it, the gracenotes as they are played in the score, and the note. It begins at 0. */
export function heardGroup({ setup, before, notes }: GroupToHear): ChanterSpan {
  const phrase: AdornedNote[] = [];
  let at = 0;
  const lay = (note: ChanterNote, gracenotes: readonly PlainNote[], lasts: number) => {
    phrase.push({ note, gracenotes, start: seconds(at), end: seconds(at + lasts), address: NOWHERE });
    at += lasts;
  };
  if (before !== null) lay(before.note, [], Math.min(LEAD_IN, before.seconds));
  for (const { note, gracenotes, seconds: lasts } of notes) lay(note, gracenotes, Math.min(HELD, lasts));
  return { start: seconds(0), stop: seconds(at), steps: pitchSteps(phrase, setup, USUAL_GRACENOTES) };
}

/** The same at another tempo, in percent of what is written. */
export function atTempo({ setup, before, notes }: GroupToHear, percent: number): GroupToHear {
  const stretched = <Note extends { readonly seconds: number }>(one: Note): Note => ({ ...one, seconds: (one.seconds * 100) / percent });
  return { setup, before: before && stretched(before), notes: notes.map(stretched) };
}

/** What is heard by itself stands in no score. */
const NOWHERE = { line: "", bar: 0, at: ticks(0) };
