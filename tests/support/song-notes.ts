import type { LeftOutKind } from "../../src/song/left-out.ts";
import type { Song } from "../../src/song/song.ts";
import { quartersOf } from "../../src/song/song-ticks.ts";

/** A note as readers of different make can agree on it: quarters from the start, MIDI number. */
export interface PlainSongNote {
  readonly from: number;
  readonly to: number;
  readonly pitch: number;
}

/** All notes of all lines, repeats not played out. */
export function notesOfSong(song: Song): readonly PlainSongNote[] {
  return song.lines.flatMap(({ notes }) =>
    notes.map(({ onset, duration, semitone }) => ({
      from: quartersOf(onset),
      to: quartersOf(onset) + quartersOf(duration),
      pitch: semitone,
    })),
  );
}

/** How many things of these kinds were left out. */
export function countLeftOut(song: Song, ...kinds: readonly LeftOutKind[]): number {
  return song.leftOut.reduce((sum, { kind, count }) => sum + (kinds.includes(kind) ? count : 0), 0);
}

/** Notes of one list that the other has not, as `pitch@from`, one for one. Onsets (and, if asked for, ends) agree within so many quarters. */
export function missingFrom(
  ours: readonly PlainSongNote[],
  theirs: readonly PlainSongNote[],
  within = 0.002,
  ends: "ends-too" | "onsets-only" = "onsets-only",
): readonly string[] {
  const free = new Map<number, PlainSongNote[]>();
  for (const note of theirs) free.set(note.pitch, [...(free.get(note.pitch) ?? []), note]);
  return ours.flatMap(({ pitch, from, to }) => {
    const others = free.get(pitch) ?? [];
    const place = others.findIndex(
      (one) => Math.abs(one.from - from) <= within && (ends === "onsets-only" || Math.abs(one.to - to) <= within),
    );
    if (place < 0) return [`${pitch}@${from.toFixed(3)}`];
    others.splice(place, 1);
    return [];
  });
}

/** A line's notes as text: `62@0+1.5` is MIDI 62 at the start for a quarter and a half. Without a number the first line. */
export function shownLine(song: Song, line = 0): string {
  const short = (value: number): string => `${Math.round(value * 1000) / 1000}`;
  return (song.lines[line]?.notes ?? [])
    .map(({ semitone, onset, duration }) => `${semitone}@${short(quartersOf(onset))}+${short(quartersOf(duration))}`)
    .join(" ");
}

/** What a song sings: syllables of a verse of its first line, those that go on with a hyphen. */
export function shownWords(song: Song, verse = 1): string {
  return (song.lines[0]?.notes ?? [])
    .map(({ syllables }) => syllables.find((one) => one.verse === verse))
    .map((one) => (one ? `${one.text}${one.goesOn ? "-" : ""}` : "*"))
    .join(" ");
}
