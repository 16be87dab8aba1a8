import fc from "fast-check";
import { Chord, ChordType, Note } from "tonal";
import { describe, expect, it } from "vitest";
import { chordPitchClasses, readChord, transposedChord } from "../../src/pitch/chord.ts";
import { seeded } from "../support/pitches.ts";

describe("a chord symbol", () => {
  it.each([
    ["E", [4, 8, 11]],
    ["C#m", [1, 4, 8]],
    ["F#7", [6, 10, 1, 4]],
    ["B/D#", [11, 3, 6]],
    ["Am/G", [9, 0, 4, 7]],
    ["Bbmaj7", [10, 2, 5, 9]],
    ["Dsus4", [2, 7, 9]],
    ["Dadd9", [2, 4, 6, 9]],
    ["G5", [7, 2]],
    ["C6/9", [0, 2, 4, 7, 9]],
    ["F♯m7♭5", [6, 9, 0, 4]],
    ["B°7", [11, 2, 5, 8]],
    ["Cm(maj7)", [0, 3, 7, 11]],
  ])("%s is read as its semitone classes, root first", (symbol, classes) => {
    expect(chordPitchClasses(symbol)).toEqual(classes);
  });

  it("has the tones that tonal, an outside reference, gives the symbols in common use", () => {
    const qualities = [
      "",
      "m",
      "7",
      "maj7",
      "m7",
      "dim",
      "dim7",
      "m7b5",
      "aug",
      "sus2",
      "sus4",
      "7sus4",
      "6",
      "m6",
      "9",
      "m9",
      "maj9",
      "add9",
    ];
    const more = ["7#5", "7b5", "7b9", "7#9", "7#11", "13", "m11", "mMaj7", "9sus4", "5", "m69", "69", "maj7#11", "11", "madd9"];
    for (const quality of [...qualities, ...more]) {
      for (const root of ["C", "F#", "Bb"]) {
        const known = Chord.get(root + quality);
        expect(known.empty, `tonal knows ${quality}`).toBe(false);
        const expected = [...new Set(known.notes.map((note) => Note.chroma(note)))].sort();
        expect([...(chordPitchClasses(root + quality) ?? [])].sort(), root + quality).toEqual(expected);
      }
    }
  });

  it("is read, in one spelling at least, for nine in ten of all the kinds tonal knows", () => {
    const kinds = ChordType.all();
    const read = kinds.filter(({ aliases, chroma }) =>
      aliases.some((alias) => {
        const tones = readChord(`C${alias}`)?.tones;
        return tones && [...chroma].every((bit, tone) => (bit === "1") === tones.includes(tone));
      }),
    );
    expect(read.length / kinds.length).toBeGreaterThan(0.9);
  });

  it("that says no chord sounds has no notes", () => {
    expect(chordPitchClasses("N.C.")).toEqual([]);
    expect(chordPitchClasses("NC")).toEqual([]);
  });

  it("is null when it cannot be read to its end", () => {
    for (const text of ["", "H", "e", "Cx", "Csus3", "C7nonsense", "C/", "C/X", "verse"]) expect(chordPitchClasses(text), text).toBeNull();
  });
});

describe("moving a chord symbol", () => {
  it("moves root and bass, and keeps the quality as it was written", () => {
    expect(transposedChord("B/D#", 1, 1)).toBe("C/E");
    expect(transposedChord("C#m7b5", 5, 9)).toBe("A#m7b5");
    expect(transposedChord("Amaj7", 1, 1)).toBe("Bbmaj7");
  });

  it("never shows a double accidental", () => {
    expect(transposedChord("D#", 2, 4)).toBe("G");
    expect(transposedChord("G#", 5, 9)).toBe("E#");
  });

  it("leaves a text that is no chord as it is", () => {
    expect(transposedChord("N.C.", 1, 2)).toBe("N.C.");
  });

  it("moves every tone by the same semitones", () => {
    const symbols = fc.constantFrom("C", "F#m7", "Bbmaj7", "E7#9", "Absus4", "D/F#", "Gm/D");
    const intervals = fc.constantFrom([1, 1], [1, 2], [5, 9], [4, 7], [2, 3]);
    fc.assert(
      fc.property(symbols, intervals, (symbol, [diatonic, chromatic]) => {
        const before = chordPitchClasses(symbol) ?? [];
        const after = chordPitchClasses(transposedChord(symbol, diatonic as number, chromatic as number));
        expect(after).toEqual(before.map((tone) => (tone + (chromatic as number)) % 12));
      }),
      seeded,
    );
  });
});
