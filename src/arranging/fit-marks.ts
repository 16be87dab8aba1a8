import type { Song, SongNote } from "../song/song.ts";

/** What the pipes do in a bar of the song: play the tune, hold a note, or say nothing. */
export type BarMark = "play" | "hold" | "silent";

/**
 * The notes of a line that ranking and fitting look at: those that begin in a bar marked to be played, in order of time.
 * @param marks by place of the bar; a bar without a mark is played
 * @throws RangeError when the song has no such line.
 */
export function markedNotes(song: Song, line: number, marks: readonly (BarMark | undefined)[]): readonly SongNote[] {
  const chosen = song.lines[line];
  if (!chosen) throw new RangeError(`A song of ${song.lines.length} lines has no line ${line}.`);
  return chosen.notes.filter(({ bar }) => (marks[bar] ?? "play") === "play");
}
