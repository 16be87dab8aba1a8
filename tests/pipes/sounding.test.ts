import fc from "fast-check";
import { Note } from "tonal";
import { describe, expect, it } from "vitest";
import { CHANTER_NOTES, NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { CHANTER_NAMES, defaultSetup } from "../../src/pipes/default-setups.ts";
import { SCALE_NAMES } from "../../src/pipes/scales.ts";
import { withScale } from "../../src/pipes/setup-changes.ts";
import { centsOffBand, centsOverLowA, concertPitchOf, hertzOf, notesThatSpeak, speaks, transpositionOf } from "../../src/pipes/sounding.ts";
import { writtenPitchOf } from "../../src/pipes/written-pitch.ts";
import { equalHertz, USUAL_BAND_A } from "../../src/pitch/reference-pitch.ts";
import { hertz } from "../../src/units/hertz.ts";
import { seeded } from "../support/pitches.ts";

const everyConcertPitch = (setup: ReturnType<typeof defaultSetup>) => CHANTER_NOTES.map((note) => concertPitchOf(setup, note));

describe("a chanter note", () => {
  it("is written G4 A4 B4 C#5 D5 E5 F#5 G5 A5, and C5, F5, G#5 when cross-fingered (ABC 2.1, 3.1.14)", () => {
    expect(NINE_NOTES.map(writtenPitchOf)).toEqual(["G4", "A4", "B4", "C#5", "D5", "E5", "F#5", "G5", "A5"]);
    expect((["c-natural", "f-natural", "high-g-sharp"] as const).map(writtenPitchOf)).toEqual(["C5", "F5", "G#5"]);
  });

  it("keeps its written name on an A chanter", () => {
    expect(everyConcertPitch(defaultSetup("A"))).toEqual(CHANTER_NOTES.map(writtenPitchOf));
  });

  it("on a B-flat chanter sounds a semitone higher: C is D, F is G, high G is A flat, high G sharp is A", () => {
    expect(everyConcertPitch(defaultSetup("Bb"))).toEqual(["Ab4", "Bb4", "C5", "Db5", "D5", "Eb5", "F5", "Gb5", "G5", "Ab5", "A5", "Bb5"]);
  });

  it("on a B chanter sounds a tone higher: C is D sharp, high G sharp is A sharp", () => {
    expect(everyConcertPitch(defaultSetup("B"))).toEqual(["A4", "B4", "C#5", "D5", "D#5", "E5", "F#5", "G5", "G#5", "A5", "A#5", "B5"]);
  });

  it("has the concert pitch that tonal, an outside reference, finds by the same interval", () => {
    for (const [chanter, interval] of [
      ["A", "1P"],
      ["Bb", "2m"],
      ["B", "2M"],
    ] as const) {
      const setup = defaultSetup(chanter);
      for (const note of CHANTER_NOTES) expect(concertPitchOf(setup, note)).toBe(Note.transpose(writtenPitchOf(note), interval));
    }
  });

  it("sounds an octave lower on smallpipes in B flat, and is named there", () => {
    const setup = defaultSetup(hertz(233.08));
    expect(transpositionOf(setup)).toEqual({ diatonic: -6, chromatic: -11 });
    expect(concertPitchOf(setup, "low-a")).toBe("Bb3");
    expect(concertPitchOf(setup, "c")).toBe("D4");
  });
});

describe("the interval from written to sounding", () => {
  it("is diatonic 1, chromatic 1 on a B-flat chanter; 1 and 2 on a B chanter; none on an A chanter (MusicXML transpose)", () => {
    expect(transpositionOf(defaultSetup("Bb"))).toEqual({ diatonic: 1, chromatic: 1 });
    expect(transpositionOf(defaultSetup("B"))).toEqual({ diatonic: 1, chromatic: 2 });
    expect(transpositionOf(defaultSetup("A"))).toEqual({ diatonic: 0, chromatic: 0 });
  });
});

describe("what sounds", () => {
  it("on a septimal chanter at 466.16 Hz is low G 407.9, C 582.7 and high A 932.3 Hz", () => {
    const setup = defaultSetup("Bb");
    expect(hertzOf(setup, "low-g")).toBeCloseTo((466.1637615 * 7) / 8, 4);
    expect(hertzOf(setup, "c")).toBeCloseTo((466.1637615 * 5) / 4, 4);
    expect(hertzOf(setup, "high-a")).toBeCloseTo(932.327523, 4);
  });

  it("is low A times the scale's ratio, in any scale at any pitch, within a millionth of a cent", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 200, max: 600, noNaN: true }),
        fc.constantFrom(...SCALE_NAMES),
        fc.constantFrom(...CHANTER_NOTES),
        (lowA, name, note) => {
          const setup = withScale(defaultSetup(hertz(lowA)), { kind: "published", name });
          const over = 1200 * Math.log2(hertzOf(setup, note) / lowA);
          expect(Math.abs(over - centsOverLowA(setup, note))).toBeLessThan(1e-6);
        },
      ),
      seeded,
    );
  });

  it("lies as far off the band as its scale off equal temperament, when low A is on the band's semitone", () => {
    const offs = NINE_NOTES.map((note) => centsOffBand(defaultSetup("B"), note, USUAL_BAND_A));
    const table = [-31.2, 0, 3.9, -13.7, -2.0, 2.0, -15.6, -31.2, 0];
    for (const [index, off] of offs.entries())
      expect(Math.abs(off - (table[index] as number)), NINE_NOTES[index]).toBeLessThanOrEqual(0.05);
  });

  it("is measured from the very pitch that names it, so hertz, name and cents agree", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 430, max: 510, noNaN: true }),
        fc.double({ min: 380, max: 480, noNaN: true }),
        fc.constantFrom(...CHANTER_NOTES),
        (lowA, bandA, note) => {
          const setup = defaultSetup(hertz(lowA));
          const named = equalHertz(concertPitchOf(setup, note), hertz(bandA));
          const rebuilt = named * 2 ** (centsOffBand(setup, note, hertz(bandA)) / 1200);
          expect(Math.abs(rebuilt / hertzOf(setup, note) - 1)).toBeLessThan(1e-9);
        },
      ),
      seeded,
    );
  });

  it("is asked for once a setup: the same setup gives the identical answer, a changed one its own", () => {
    const setup = defaultSetup("B");
    expect(transpositionOf(setup)).toBe(transpositionOf(setup));
    expect(hertzOf({ ...setup, lowA: hertz(500) }, "low-a")).toBe(500);
    expect(hertzOf(setup, "low-a")).toBeCloseTo(493.88, 2);
  });
});

describe("the notes that speak", () => {
  it("are the nine until the piper ticks more", () => {
    for (const name of CHANTER_NAMES) expect(notesThatSpeak(defaultSetup(name))).toEqual(NINE_NOTES);
  });

  it("stand between their neighbours, lowest first", () => {
    const setup = { ...defaultSetup("B"), crossFingerings: defaultCrossFingerings(["high-g-sharp", "c-natural"]) };
    expect(notesThatSpeak(setup)).toEqual(["low-g", "low-a", "b", "c-natural", "c", "d", "e", "f", "high-g", "high-g-sharp", "high-a"]);
    expect(speaks(setup, "f-natural")).toBe(false);
  });
});
