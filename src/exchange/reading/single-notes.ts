import type { DraftedNote } from "./drafted-note.ts";

/** A line brought down to one note at a time. */
export interface SingleNotes {
  /** In order of time, none sounding into the next. */
  readonly notes: readonly DraftedNote[];
  /** Notes under the top note of a chord. */
  readonly lower: readonly DraftedNote[];
  /** Notes that sounded under a longer higher note, or were cut short by one. */
  readonly across: readonly DraftedNote[];
  /** How many moments had more than one note. */
  readonly chords: number;
}

/** Song ticks by which a note may lap over the next and be taken for one slurred into it: the shorter one's half. */
const LAP = 0.5;

/**
 * One note at a time: of notes that begin together the top one (with the syllables of all of them); of notes that lap over, the earlier
 * is cut where the later begins, unless it lies higher and goes on over most of the later: then the later is an inner voice and goes.
 */
export function singleNotes(drafted: readonly DraftedNote[]): SingleNotes {
  const [tops, lower, chords] = topNotes(drafted);
  const notes: DraftedNote[] = [];
  const across: DraftedNote[] = [];
  for (const note of tops) {
    const before = notes.at(-1);
    const lap = before ? before.onset + before.duration - note.onset : 0;
    if (!before || lap <= 0) {
      notes.push(note);
      continue;
    }
    const slurred = lap <= LAP * Math.min(before.duration, note.duration);
    if (!slurred && before.semitone >= note.semitone) {
      across.push(note);
      continue;
    }
    if (!slurred) across.push(before);
    notes[notes.length - 1] = { ...before, duration: note.onset - before.onset };
    notes.push(note);
  }
  return { notes, lower, across, chords };
}

function topNotes(drafted: readonly DraftedNote[]): readonly [tops: readonly DraftedNote[], lower: readonly DraftedNote[], chords: number] {
  const tops: DraftedNote[] = [];
  const lower: DraftedNote[] = [];
  let chords = 0;
  const inOrder = [...drafted].sort((a, b) => a.onset - b.onset || b.semitone - a.semitone || b.duration - a.duration);
  let met = 1;
  for (const note of inOrder) {
    const top = tops.at(-1);
    if (!top || top.onset !== note.onset) {
      tops.push(note);
      met = 1;
      continue;
    }
    if (met === 1) chords += 1;
    met += 1;
    lower.push(note);
    const sung = note.syllables.filter(({ verse }) => !top.syllables.some((other) => other.verse === verse));
    if (sung.length > 0) tops[tops.length - 1] = { ...top, syllables: [...top.syllables, ...sung] };
  }
  return [tops, lower, chords];
}
