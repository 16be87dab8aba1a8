import type { ConcertEvent, ConcertNote, PipeEvent, PipeNote } from "./bar.ts";

/** An event of any line. */
export type LineEvent = PipeEvent | ConcertEvent;

/** A note of any line. */
export type LineNote = PipeNote | ConcertNote;

/** Whether a note is the pipes': a concert note has pitches instead. */
export function isPipeNote(note: LineNote): note is PipeNote {
  return "note" in note;
}

/** Whether two notes sound the same: one chanter note, or the same concert pitches. */
export function soundAlike(one: LineNote, other: LineNote): boolean {
  if (isPipeNote(one)) return isPipeNote(other) && one.note === other.note;
  if (isPipeNote(other)) return false;
  return one.pitches.length === other.pitches.length && one.pitches.every((pitch, index) => pitch === other.pitches[index]);
}

/** Whether two events are the same in everything, so that one may stand for the other. */
export function sameEvent(one: LineEvent, other: LineEvent): boolean {
  if (one === other) return true;
  if (one.ticks !== other.ticks || one.tuplet !== other.tuplet) return false;
  if (one.kind === "rest" || other.kind === "rest") return one.kind === other.kind;
  return soundAlike(one, other) && one.tied === other.tied && sameSyllables(one, other) && sameArticulation(one, other);
}

function sameSyllables(one: LineNote, other: LineNote): boolean {
  if (one.syllables.length !== other.syllables.length) return false;
  return one.syllables.every((syllable, index) => {
    const match = other.syllables[index];
    return syllable.text === match?.text && syllable.hyphen === match.hyphen;
  });
}

function sameArticulation(one: LineNote, other: LineNote): boolean {
  if (!isPipeNote(one) || !isPipeNote(other)) return true;
  return (
    one.strikeIn === other.strikeIn &&
    one.cutOff === other.cutOff &&
    one.gracenotes.length === other.gracenotes.length &&
    one.gracenotes.every((gracenote, index) => gracenote === other.gracenotes[index])
  );
}
