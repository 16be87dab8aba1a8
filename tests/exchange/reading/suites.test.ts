import abcjs from "abcjs";
import { type MidiData, parseMidi } from "midi-file";
import { describe, expect, it } from "vitest";
import { songFromBytes } from "../../../src/exchange/reading/read-song.ts";
import { unpackedMxl } from "../../../src/exchange/reading/unpacked-mxl.ts";
import { melodyGuesses } from "../../../src/song/melody-guess.ts";
import type { Song } from "../../../src/song/song.ts";
import { ReadError } from "../../../src/units/read-error.ts";
import { PATIENCE } from "../../support/cases.ts";
import { countLeftOut, missingFrom, notesOfSong, type PlainSongNote } from "../../support/song-notes.ts";
import { HAS_SUITES, type SuiteFile, suiteFiles } from "../../support/suites.ts";
import { soundOfMusicxml } from "../../support/verovio-reading.ts";

/** Files that Verovio reads otherwise, and why we stay with ours. Named by the number they begin with. */
const READ_OTHERWISE: Readonly<Record<string, string>> = {
  "01f": "we put quarter tones on a semitone, Verovio sounds them apart",
  "23c": "lengths in the file contradict what is written; we go by the lengths",
  "23d": "lengths of nested tuplets; we go by the file's, Verovio by what is written",
  "24a": "Verovio gives gracenotes time",
  "24f": "Verovio gives gracenotes time",
  "32c": "an accidental is printed that the pitch has not; we go by the pitch",
  "32d": "Verovio spreads arpeggios",
  "33e": "an octave line of an impossible size shortens Verovio's first note",
  "33i": "Verovio holds a tie that ends nowhere",
  "61f": "Verovio gives gracenotes time",
  "71e": "Verovio does not read tablature as we do",
  "72c": "Verovio keeps the first transposition of a part that changes it",
};

/** The song in a file; null where it is refused. */
function songOrNull({ bytes, name }: SuiteFile): Song | null {
  try {
    return songFromBytes(bytes, name);
  } catch (error) {
    if (error instanceof ReadError) return null;
    throw error;
  }
}

describe.skipIf(!HAS_SUITES)("Files that nobody here wrote", () => {
  it.each(["musicxml", "midi", "abc", "songs"])(
    "Every file of %s is read or refused by name within 5 s, and bars have no gaps",
    (suite) => {
      for (const file of suiteFiles(suite)) {
        const begun = performance.now();
        try {
          const song = songFromBytes(file.bytes, file.name);
          let end = 0;
          for (const bar of song.bars) {
            expect(bar.onset, file.name).toBe(end);
            end = bar.onset + bar.length;
          }
          for (const { notes } of song.lines) {
            expect(notes.length, file.name).toBeGreaterThan(0);
            for (const [index, note] of notes.entries()) {
              expect(note.duration, file.name).toBeGreaterThan(0);
              expect(note.onset + note.duration, file.name).toBeLessThanOrEqual(notes[index + 1]?.onset ?? end);
            }
          }
        } catch (error) {
          if (!(error instanceof ReadError)) throw error;
          expect(error.where.startsWith(file.name), error.message).toBe(true);
        }
        expect(performance.now() - begun, file.name).toBeLessThan(5000);
      }
    },
  );

  it("The tune of every hymn is its first line, of every song its singer's", () => {
    for (const file of [...suiteFiles("songs", /\.(?:abc|mxl)$/), ...suiteFiles("abc")]) {
      const song = songOrNull(file);
      if (song) expect(song.lines[melodyGuesses(song)[0]?.line ?? -1]?.name, file.name).toBe(song.lines[0]?.name);
    }
  });
});

describe.skipIf(!HAS_SUITES)("Against other readers", () => {
  it("MIDI: every note that midi-file finds outside the drums' channel is ours, or told as left out; none is ours alone", () => {
    for (const file of suiteFiles("midi", /\.mid$/)) {
      const song = songOrNull(file);
      if (!song) continue;
      // midi-file refuses chunks of other kinds, which the specification asks to step over.
      if (file.name === "test-non-midi-track.mid") continue;
      const theirs = midiFileNotes(file.bytes);
      const ours = notesOfSong(song);
      expect(missingFrom(ours, theirs, (song.quantising?.largestError ?? 0) + 0.001), file.name).toEqual([]);
      expect(ours.length + countLeftOut(song, "lower-notes"), file.name).toBeGreaterThanOrEqual(
        theirs.length - countLeftOut(song, "overlaps"),
      );
    }
  });

  it("ABC: notes, onsets and lengths in quarters are what abcjs finds, hymn for hymn", () => {
    let compared = 0;
    for (const file of [...suiteFiles("abc"), ...suiteFiles("songs", /\.abc$/)]) {
      const song = songOrNull(file);
      // abcjs plays repeats out.
      if (!song || song.bars.some(({ repeatTimes }) => repeatTimes > 0)) continue;
      const theirs = abcjsNotes(new TextDecoder("latin1").decode(file.bytes));
      const ours = notesOfSong(song);
      expect(missingFrom(ours, theirs, 0.002, "ends-too"), file.name).toEqual([]);
      expect(ours.length + countLeftOut(song, "lower-notes", "overlaps"), file.name).toBe(theirs.length);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(40);
  });

  it(
    "MusicXML: every note of ours is one that Verovio sounds at the same time in quarters",
    async () => {
      let compared = 0;
      for (const file of [...suiteFiles("musicxml", /\.(?:xml|musicxml|mxl)$/), ...suiteFiles("songs", /\.mxl$/)]) {
        const song = songOrNull(file);
        if (!song || song.bars.some(({ repeatTimes }) => repeatTimes > 0)) continue;
        const text = new TextDecoder().decode(file.name.endsWith(".mxl") ? unpackedMxl(file.bytes) : file.bytes);
        const theirs = (await soundOfMusicxml(text)).flat();
        const ours = notesOfSong(song);
        const apart = Object.keys(READ_OTHERWISE).some((start) => file.name.startsWith(`${start}-`));
        // Where Verovio learns to read one of these, its row goes.
        if (apart) expect(missingFrom(ours, theirs, 0.02), file.name).not.toEqual([]);
        else expect(missingFrom(ours, theirs, 0.02), file.name).toEqual([]);
        if (apart) continue;
        const told = countLeftOut(song, "lower-notes", "overlaps", "gracenotes", "cues", "unpitched", "out-of-range");
        expect(ours.length + told, file.name).toBeGreaterThanOrEqual(theirs.length);
        compared += 1;
      }
      expect(compared).toBeGreaterThan(60);
    },
    PATIENCE,
  );
});

function midiFileNotes(bytes: Uint8Array): readonly PlainSongNote[] {
  const { header, tracks }: MidiData = parseMidi(bytes);
  return tracks.flatMap((events) => {
    const notes: { from: number; to: number; pitch: number; channel: number }[] = [];
    let tick = 0;
    for (const event of events) {
      tick += event.deltaTime;
      if (event.type === "noteOn" && event.channel !== 9) {
        const from = tick / (header.ticksPerBeat ?? 1);
        notes.push({ from, to: from, pitch: event.noteNumber, channel: event.channel });
      }
    }
    return notes;
  });
}

/** Times of abcjs go by its first tempo, so all tempos are taken out. */
function abcjsNotes(text: string): readonly PlainSongNote[] {
  const tune = abcjs.parseOnly(text.replace(/\[Q:[^\]]*\]/g, ""))[0] as unknown as {
    setUpAudio(options: object): { tracks: { cmd: string; pitch: number; start: number; duration: number; style?: string }[][] };
  };
  const { tracks } = tune.setUpAudio({ chordsOff: true });
  return tracks
    .flat()
    .flatMap(({ cmd, pitch, start, duration, style }) =>
      cmd === "note" && style !== "grace" ? [{ from: start * 4, to: (start + duration) * 4, pitch }] : [],
    );
}
