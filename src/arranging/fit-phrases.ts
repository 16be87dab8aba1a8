import type { SongNote } from "../song/song.ts";

/** A leap after which the tune may go on in another octave, in semitones: a fifth. */
export const FOLDING_LEAP = 7;

/** Words that end with one of these end a phrase, as singers breathe there. *Source:* common practice. */
const PHRASE_END = /[,;:.!?]["'”’)]*$/;

/**
 * Whether the notes from a place on may lie in another octave than those before: after a rest, at a leap of a fifth or more, or where the
 * words end a phrase. The first note always may.
 */
export function mayFoldAt(notes: readonly SongNote[], at: number): boolean {
  const [before, note] = [notes[at - 1], notes[at]];
  if (!before || !note) return true;
  if (note.onset > before.onset + before.duration) return true;
  if (Math.abs(note.semitone - before.semitone) >= FOLDING_LEAP) return true;
  return before.syllables.some(({ text, goesOn }) => !goesOn && PHRASE_END.test(text));
}

/** The notes cut where a fold may begin, in order, none empty. */
export function foldablePhrases(notes: readonly SongNote[]): readonly (readonly SongNote[])[] {
  const phrases: SongNote[][] = [];
  notes.forEach((note, at) => {
    if (mayFoldAt(notes, at)) phrases.push([note]);
    else phrases.at(-1)?.push(note);
  });
  return phrases;
}
