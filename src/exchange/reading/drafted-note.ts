import type { ConcertPitch } from "../../pitch/concert-pitch.ts";
import type { SongSyllable } from "../../song/song.ts";

/** A note as a reader meets it: ties not yet joined, chords not yet thinned. */
export interface DraftedNote {
  /** Song ticks from the start of the song. */
  readonly onset: number;
  /** Song ticks. */
  readonly duration: number;
  readonly semitone: number;
  readonly pitch: ConcertPitch;
  readonly tiedFrom: boolean;
  readonly tiedTo: boolean;
  readonly syllables: readonly SongSyllable[];
}

/** Notes tied to each other as one, in order of onset. A tie that leads to no note of its pitch is dropped: the note ends where it ends. */
export function joinedTies<Note extends DraftedNote>(notes: readonly Note[]): readonly Note[] {
  const joined: Note[] = [];
  /** Places in `joined` of notes that a tie goes on from, by pitch. */
  const open = new Map<number, number>();
  for (const note of [...notes].sort((a, b) => a.onset - b.onset)) {
    const place = note.tiedFrom ? open.get(note.semitone) : undefined;
    const before = place === undefined ? undefined : joined[place];
    if (place !== undefined && before && before.onset + before.duration === note.onset) {
      joined[place] = { ...before, duration: before.duration + note.duration, syllables: [...before.syllables, ...note.syllables] };
      if (!note.tiedTo) open.delete(note.semitone);
      continue;
    }
    joined.push(note);
    if (note.tiedTo) open.set(note.semitone, joined.length - 1);
    else open.delete(note.semitone);
  }
  return joined;
}
