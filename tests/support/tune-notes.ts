import { pitchFromSpelling } from "../../src/pitch/spelling.ts";
import type { SongNote } from "../../src/song/song.ts";
import { SONG_TICKS_PER_QUARTER, songTicks } from "../../src/song/song-ticks.ts";

/** Notes one after another: semitones in MIDI numbering, a length in quarters behind a colon where it is not 1; `-` rests. All in bar 0. */
export function songNotes(text: string, movedBy = 0): readonly SongNote[] {
  let onset = 0;
  return text.split(" ").flatMap((word) => {
    const [semitone = "", quarters = "1"] = word.split(":");
    const at = onset;
    onset += Number(quarters) * SONG_TICKS_PER_QUARTER;
    if (semitone === "-") return [];
    return [
      {
        bar: 0,
        onset: songTicks(at),
        duration: songTicks(onset - at),
        semitone: Number(semitone) + movedBy,
        pitch: pitchFromSpelling({ letter: "C", alter: 0, octave: 4 }),
        syllables: [],
      },
    ];
  });
}
