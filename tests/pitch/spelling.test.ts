import fc from "fast-check";
import { Note } from "tonal";
import { describe, expect, it } from "vitest";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { concertPitch, isConcertPitch, pitchFromSpelling, shownPitch, spellingOf, spokenPitch } from "../../src/pitch/spelling.ts";
import { anyPitch, seeded } from "../support/pitches.ts";

describe("a concert pitch", () => {
  it("is taken apart into letter, accidental and octave", () => {
    expect(spellingOf(concertPitch("Bb4"))).toEqual({ letter: "B", alter: -1, octave: 4 });
    expect(spellingOf(concertPitch("F##5"))).toEqual({ letter: "F", alter: 2, octave: 5 });
    expect(spellingOf(concertPitch("A-1"))).toEqual({ letter: "A", alter: 0, octave: -1 });
  });

  it("comes back from its pieces", () => {
    fc.assert(
      fc.property(anyPitch, (pitch) => pitchFromSpelling(spellingOf(pitch)) === pitch),
      seeded,
    );
  });

  it("is counted in semitones as MIDI does: C4 is 60, A4 69, C flat 4 is 59, B sharp 3 is 60", () => {
    expect(["C4", "A4", "Cb4", "B#3"].map((text) => semitoneOf(concertPitch(text)))).toEqual([60, 69, 59, 60]);
  });

  it("has the same MIDI number as in tonal, an outside reference", () => {
    fc.assert(
      fc.property(anyPitch, (pitch) => {
        const midi = Note.get(pitch).midi;
        fc.pre(midi !== null);
        expect(semitoneOf(pitch)).toBe(midi);
      }),
      seeded,
    );
  });

  it("is shown with signs and spoken in words", () => {
    expect(shownPitch(concertPitch("Bb4"))).toBe("B♭4");
    expect(shownPitch(concertPitch("C#5"))).toBe("C♯5");
    expect(spokenPitch(concertPitch("Bb4"))).toBe("B flat 4");
    expect(spokenPitch(concertPitch("F##5"))).toBe("F double sharp 5");
    expect(spokenPitch(concertPitch("A4"))).toBe("A 4");
  });

  it("is refused when it is anything else, and the refusal says what was found", () => {
    for (const text of ["", "b4", "H4", "B", "B♭4", "Bb", "C#10", "C###4", "C4 ", "A--1", "A-2"]) {
      expect(isConcertPitch(text), text).toBe(false);
      expect(() => concertPitch(text), text).toThrow(`found ${JSON.stringify(text)}`);
    }
  });

  it("cannot be put together with three sharps or beyond octave 9", () => {
    expect(() => pitchFromSpelling({ letter: "C", alter: 3, octave: 4 })).toThrow(RangeError);
    expect(() => pitchFromSpelling({ letter: "C", alter: 0, octave: 10 })).toThrow(RangeError);
  });
});
