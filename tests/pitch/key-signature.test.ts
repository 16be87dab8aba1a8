import fc from "fast-check";
import { Note, Key as TonalKey, Mode as TonalMode } from "tonal";
import { describe, expect, it } from "vitest";
import type { Key } from "../../src/pitch/key.ts";
import {
  alterInKey,
  fifthsOf,
  keyFromName,
  keyName,
  MODES,
  readableKey,
  scalePitchClasses,
  shownKey,
  spokenKey,
  tonicPitchClass,
  transposedKey,
} from "../../src/pitch/key-signature.ts";
import { LETTERS } from "../../src/pitch/letter.ts";
import { anyKey, seeded } from "../support/pitches.ts";

const key = (text: string): Key => keyFromName(text);

describe("a key signature", () => {
  it("has as many accidentals as tonal, an outside reference, gives the major key", () => {
    for (const tonic of ["C", "G", "D", "A", "E", "B", "F#", "C#", "F", "Bb", "Eb", "Ab", "Db", "Gb", "Cb"]) {
      expect(fifthsOf({ tonic, mode: "major" }), tonic).toBe(TonalKey.majorKey(tonic).alteration);
      expect(fifthsOf({ tonic, mode: "minor" }), tonic).toBe(TonalKey.minorKey(tonic).alteration);
    }
  });

  it("leaves no accidentals in any mode: every degree of the scale stands as the signature has it", () => {
    fc.assert(
      fc.property(anyKey, (any) => {
        const notes = TonalMode.notes(any.mode, any.tonic);
        for (const note of notes) {
          const { letter, alt } = Note.get(note);
          expect(alterInKey(any, letter as (typeof LETTERS)[number]), `${note} in ${keyName(any)}`).toBe(alt);
        }
        expect(scalePitchClasses(any)).toEqual(notes.map((note) => Note.chroma(note)));
      }),
      seeded,
    );
  });

  it("of the pipes' own keys is two sharps as the chanter is written (ABC 2.1, 3.1.14 names these four)", () => {
    for (const name of ["D major", "A mixolydian", "E dorian", "B minor"]) expect(fifthsOf(key(name)), name).toBe(2);
  });

  it("sharpens F first and flattens B first", () => {
    expect(LETTERS.filter((letter) => alterInKey(key("G major"), letter) === 1)).toEqual(["F"]);
    expect(LETTERS.filter((letter) => alterInKey(key("F major"), letter) === -1)).toEqual(["B"]);
    expect(LETTERS.every((letter) => alterInKey(key("C# major"), letter) === 1)).toBe(true);
  });
});

describe("a key that is easy to read", () => {
  it("never has more than six accidentals, and sounds the same", () => {
    fc.assert(
      fc.property(anyKey, (any) => {
        const readable = readableKey(any);
        expect(Math.abs(fifthsOf(readable))).toBeLessThanOrEqual(6);
        expect(tonicPitchClass(readable)).toBe(tonicPitchClass(any));
        expect(readable.mode).toBe(any.mode);
      }),
      seeded,
    );
  });

  it("keeps the name it has at six accidentals and fewer, sharps or flats", () => {
    for (const name of ["F# major", "Gb major", "D# minor", "Eb minor", "E major"]) expect(keyName(readableKey(key(name)))).toBe(name);
  });

  it("is the enharmonic one from seven accidentals on", () => {
    expect(keyName(readableKey(key("C# major")))).toBe("Db major");
    expect(keyName(readableKey(key("Cb major")))).toBe("B major");
    expect(keyName(readableKey({ tonic: "G#", mode: "major" }))).toBe("Ab major");
  });
});

describe("naming a key", () => {
  it("goes to text and back", () => {
    for (const mode of MODES) expect(keyFromName(keyName({ tonic: "Bb", mode }))).toEqual({ tonic: "Bb", mode });
    expect(keyFromName("C♯ minor")).toEqual({ tonic: "C#", mode: "minor" });
  });

  it("is shown with a sign and spoken in words", () => {
    expect(shownKey(key("C# minor"))).toBe("C♯ minor");
    expect(shownKey(key("Bb mixolydian"))).toBe("B♭ mixolydian");
    expect(spokenKey(key("Bb mixolydian"))).toBe("B flat mixolydian");
  });

  it("is refused for what is no key", () => {
    for (const text of ["", "H major", "C", "C phrygian", "c major", "C#  minor"])
      expect(() => keyFromName(text), text).toThrow("a tonic and a mode");
  });
});

it("A key moves with its notes: D major up a major second is E major, and B minor becomes C sharp minor", () => {
  expect(keyName(transposedKey(key("D major"), 1, 2))).toBe("E major");
  expect(keyName(transposedKey(key("B minor"), 1, 2))).toBe("C# minor");
  expect(keyName(transposedKey(key("A mixolydian"), 1, 1))).toBe("Bb mixolydian");
});
