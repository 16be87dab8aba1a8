import { describe, expect, it } from "vitest";
import { songFromBytes } from "../../../src/exchange/reading/read-song.ts";
import { leftOutWords } from "../../../src/song/left-out.ts";
import { songKeyName } from "../../../src/song/song-key-name.ts";
import { ReadError } from "../../../src/units/read-error.ts";
import { type MidiStep, midiFile, midiNoteSteps, midiText } from "../../support/small-songs.ts";
import { shownLine, shownWords } from "../../support/song-notes.ts";

const TEMPO_90: readonly number[] = [0xff, 0x51, 3, 0x0a, 0x2c, 0x2b];
const THREE_FOUR: readonly number[] = [0xff, 0x58, 4, 3, 2, 24, 8];
const E_FLAT: readonly number[] = [0xff, 0x59, 2, 0xfd, 0];
const HEAD: readonly MidiStep[] = [
  [0, midiText(3, "Paper Lantern Weather")],
  [0, TEMPO_90],
  [0, THREE_FOUR],
  [0, E_FLAT],
];

describe("A MIDI file", () => {
  it("gives title, tempo, meter, key and lines by their tracks' names", () => {
    const tune = midiNoteSteps([
      [70, 0, 480],
      [63, 480, 960],
    ]);
    const song = songFromBytes(
      midiFile([HEAD, [[0, midiText(3, "Tune")], ...tune], [[0, midiText(3, "Drums")], ...midiNoteSteps([[36, 0, 10]], 9)]]),
      "a.mid",
    );
    expect(song.title).toBe("Paper Lantern Weather");
    expect(song.tempos[0]?.quarters).toBeCloseTo(90, 3);
    expect(song.bars.map(({ meter }) => meter)).toEqual([{ beats: 3, unit: 4 }]);
    expect(song.keys.map(songKeyName)).toEqual(["Eb major"]);
    expect(song.lines.map(({ name }) => name)).toEqual(["Tune"]);
    expect(song.lines[0]?.notes.map(({ pitch }) => pitch)).toEqual(["Bb4", "Eb4"]);
    expect(song.leftOut.map(leftOutWords)).toEqual(["1 percussion note in bar 1"]);
  });

  it("written by a program keeps its triplets, fives and sevens to a tick, with no error", () => {
    const third = midiNoteSteps([
      [60, 0, 160],
      [62, 160, 320],
      [64, 320, 480],
    ]);
    const song = songFromBytes(midiFile([HEAD, third]), "a.mid");
    expect(shownLine(song)).toBe("60@0+0.333 62@0.333+0.333 64@0.667+0.333");
    expect(song.quantising?.largestError).toBe(0);
    const fifth = songFromBytes(
      midiFile([HEAD, midiNoteSteps([0, 1, 2, 3, 4].map((place) => [60, place * 96, place * 96 + 96] as const))]),
      "a.mid",
    );
    expect(shownLine(fifth)).toBe("60@0+0.2 60@0.2+0.2 60@0.4+0.2 60@0.6+0.2 60@0.8+0.2");
  });

  it("played by hand is put on eighths and quarters, and says by how much in quarters", () => {
    const played = midiNoteSteps([
      [60, 12, 470],
      [62, 471, 700],
      [64, 735, 950],
      [65, 965, 1400],
    ]);
    const song = songFromBytes(midiFile([HEAD, played]), "a.mid");
    expect(shownLine(song)).toBe("60@0+1 62@1+0.5 64@1.5+0.5 65@2+1");
    expect(song.quantising?.largestError).toBeCloseTo(15 / 480, 6);
    expect(song.quantising?.meanError).toBeCloseTo((12 + 9 + 15 + 5) / 4 / 480, 6);
  });

  it("keeps rests that a program wrote, and fills the gap where a hand let go a little early", () => {
    const written = midiNoteSteps([
      [60, 0, 240],
      [62, 480, 840],
      [64, 960, 1440],
    ]);
    expect(shownLine(songFromBytes(midiFile([HEAD, written]), "a.mid"))).toBe("60@0+0.5 62@1+0.75 64@2+1");
    const lifted = midiNoteSteps([
      [60, 0, 431],
      [62, 480, 911],
      [64, 960, 1391],
    ]);
    expect(shownLine(songFromBytes(midiFile([HEAD, lifted]), "a.mid"))).toBe("60@0+1 62@1+1 64@2+1");
  });

  it("gives lyrics to the notes they fall on", () => {
    const notes = midiNoteSteps([
      [60, 0, 480],
      [62, 480, 960],
      [64, 960, 1440],
    ]);
    const words: readonly MidiStep[] = [
      [0, midiText(5, "Pa-")],
      [480, midiText(5, "per ")],
      [480, midiText(5, "lan")],
    ];
    expect(shownWords(songFromBytes(midiFile([words, notes]), "a.mid"))).toBe("Pa- per lan");
  });

  it("with several channels in one track gives a line for each", () => {
    const both = [...midiNoteSteps([[72, 0, 480]], 0), ...midiNoteSteps([[48, 0, 480]], 3)];
    expect(songFromBytes(midiFile([both], 480, 0), "a.mid").lines.map(({ name }) => name)).toEqual([
      "Track 1, channel 1",
      "Track 1, channel 4",
    ]);
  });

  it("in which a note laps over the next is one note at a time; a held note under which others move keeps its own", () => {
    const slurred = songFromBytes(
      midiFile([
        midiNoteSteps([
          [64, 0, 500],
          [62, 480, 960],
        ]),
      ]),
      "a.mid",
    );
    expect(shownLine(slurred)).toBe("64@0+1 62@1+1");
    const held = songFromBytes(
      midiFile([
        midiNoteSteps([
          [72, 0, 1920],
          [60, 480, 960],
          [62, 960, 1440],
        ]),
      ]),
      "a.mid",
    );
    expect(shownLine(held)).toBe("72@0+4");
    expect(held.leftOut.map(leftOutWords)).toEqual(["2 notes sounding across others in Track 1, channel 1, bar 1"]);
  });
});

describe("MIDI that is refused, by the byte", () => {
  const good = midiFile([midiNoteSteps([[60, 0, 480]])]);
  const changed = (at: number, ...bytes: readonly number[]): Uint8Array => {
    const copy = good.slice();
    copy.set(bytes, at);
    return copy;
  };
  it.each([
    ["time in frames", changed(12, 0xe7, 0x28), "a.mid, byte 12: expected ticks in a quarter, found time in frames"],
    ["no ticks", changed(12, 0, 0), "byte 12: expected ticks in a quarter above zero, found 0"],
    ["an unknown format", changed(8, 0, 9), "byte 8: expected format 0, 1 or 2, found 9"],
    ["format 2", changed(8, 0, 2), "byte 8: expected format 0 or 1"],
    ["a track cut short", good.subarray(0, good.length - 6), "up to the file's end"],
    ["more tracks than there are", changed(10, 0, 3), "expected 3 tracks, found 1"],
    ["a message no file may hold", changed(23, 0xf4), "found status F4"],
    ["a data byte above 127", changed(24, 0xc0), "expected a data byte (under 128), found 192"],
  ])("%s", (_, bytes, message) => {
    expect(() => songFromBytes(bytes, "a.mid")).toThrow(ReadError);
    expect(() => songFromBytes(bytes, "a.mid")).toThrow(message);
  });

  it("A song of 268 million quarters is refused before a bar is made", () => {
    const endless = midiFile(
      [
        [
          [0, [0x90, 60, 80]],
          [0x0fffffff, [0x80, 60, 0]],
        ],
      ],
      1,
    );
    const begun = performance.now();
    expect(() => songFromBytes(endless, "a.mid")).toThrow("at most 100000 quarters");
    expect(performance.now() - begun).toBeLessThan(1000);
  });
});
