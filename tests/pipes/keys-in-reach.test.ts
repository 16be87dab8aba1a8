import { describe, expect, it } from "vitest";
import { CHANTER_NOTES, CROSS_FINGERED_NOTES, type CrossFingeredNote } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { type ChanterName, defaultSetup } from "../../src/pipes/default-setups.ts";
import { type KeyInReach, keysAtMost, keysInReach } from "../../src/pipes/keys-in-reach.ts";
import { writtenPitchOf } from "../../src/pipes/written-pitch.ts";
import { fifthsOf, keyName, MODES, scalePitchClasses } from "../../src/pitch/key-signature.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";

function keysWith(chanter: ChanterName, ...speaking: CrossFingeredNote[]): readonly KeyInReach[] {
  return keysInReach({ ...defaultSetup(chanter), crossFingerings: defaultCrossFingerings(speaking) });
}

const concertNames = (keys: readonly KeyInReach[]) => keys.map((key) => keyName(key.concert));
const writtenNames = (keys: readonly KeyInReach[]) => keys.map((key) => keyName(key.written)).sort();

describe("the keys in reach", () => {
  it("of the nine are A mixolydian, D major, B minor, E dorian (ABC 2.1, 3.1.14 names these four)", () => {
    expect(writtenNames(keysWith("A"))).toEqual(["A mixolydian", "B minor", "D major", "E dorian"]);
  });

  it("gain G major, D mixolydian, A dorian, E minor with C natural", () => {
    const gained = keysWith("A", "c-natural").filter((key) => key.needs.length > 0);
    expect(writtenNames(gained)).toEqual(["A dorian", "D mixolydian", "E minor", "G major"]);
    expect(gained.every((key) => key.needs.join() === "c-natural")).toBe(true);
  });

  it("gain C major, G mixolydian, D dorian, A minor with C and F natural, and nothing with F natural alone", () => {
    const gained = keysWith("A", "c-natural", "f-natural").filter((key) => key.needs.length === 2);
    expect(writtenNames(gained)).toEqual(["A minor", "C major", "D dorian", "G mixolydian"]);
    expect(writtenNames(keysWith("A", "f-natural"))).toEqual(writtenNames(keysWith("A")));
  });

  it("gain A major, E mixolydian, B dorian, F sharp minor with high G sharp", () => {
    const gained = keysWith("A", "high-g-sharp").filter((key) => key.needs.length > 0);
    expect(writtenNames(gained)).toEqual(["A major", "B dorian", "E mixolydian", "F# minor"]);
  });

  it("are never more than sixteen, four for each set of notes", () => {
    expect(keysAtMost(defaultSetup("B")).length).toBe(16);
  });

  it("on an A chanter are A mixolydian, D major, B minor (common practice)", () => {
    expect(concertNames(keysWith("A"))).toEqual(expect.arrayContaining(["A mixolydian", "D major", "B minor"]));
  });

  it("on a B-flat chanter are B flat mixolydian, E flat major, C minor (common practice)", () => {
    expect(concertNames(keysWith("Bb"))).toEqual(expect.arrayContaining(["Bb mixolydian", "Eb major", "C minor"]));
  });

  it("on a B chanter are B mixolydian, E major, C sharp minor, and with the naturals A major, B minor and D major too (common practice)", () => {
    expect(concertNames(keysWith("B"))).toEqual(expect.arrayContaining(["B mixolydian", "E major", "C# minor"]));
    const more = concertNames(keysWith("B", "c-natural", "f-natural"));
    expect(more).toEqual(expect.arrayContaining(["A major", "B minor", "D major"]));
  });

  it("on a B-flat chanter hold six of the seven named in print, and of the seventh, E flat minor, the dorian (Slavin, bagpipe.news 2022-23)", () => {
    const names = concertNames(keysAtMost(defaultSetup("Bb")));
    expect(names).toEqual(expect.arrayContaining(["Ab major", "Bb major", "Bb minor", "C minor", "Eb major", "F minor"]));
    // Natural E flat minor would need a C flat, which is B flat on the written staff: no chanter note.
    expect(names).not.toContain("Eb minor");
    expect(names).toContain("Eb dorian");
  });

  it("follow the written tonic: A, D, G, B minor, E dorian, C on the three chanters", () => {
    const table = [
      ["A major", "A major", "Bb major", "B major"],
      ["D major", "D major", "Eb major", "E major"],
      ["G major", "G major", "Ab major", "A major"],
      ["B minor", "B minor", "C minor", "C# minor"],
      ["E dorian", "E dorian", "F dorian", "F# dorian"],
      ["E minor", "E minor", "F minor", "F# minor"],
      ["C major", "C major", "Db major", "D major"],
    ];
    for (const [written, ...concert] of table) {
      const found = (["A", "Bb", "B"] as const).map((chanter) =>
        keysAtMost(defaultSetup(chanter)).find((key) => keyName(key.written) === written),
      );
      expect(
        found.map((key) => key && keyName(key.concert)),
        written,
      ).toEqual(concert);
    }
  });
});

describe("a key in reach", () => {
  const ofB = keysAtMost(defaultSetup("B"));
  const written = (name: string) => ofB.find((key) => keyName(key.written) === name) as KeyInReach;

  it("says which note is its tonic and how far the chanter reaches: written D a fifth below and a fifth above", () => {
    expect(written("D major")).toMatchObject({ tonicNote: "d", below: 7, above: 7, crossFingeredTonic: false, crossFingeredFifth: false });
  });

  it("counts only notes of the key: written A mixolydian reaches a tone below, A major, which has no low G sharp, nothing", () => {
    expect(written("A mixolydian")).toMatchObject({ tonicNote: "low-a", below: 2, above: 12 });
    expect(written("A major")).toMatchObject({ tonicNote: "low-a", below: 0, above: 12 });
  });

  it("says that D major on a B chanter (written C) has a cross-fingered tonic, and no other key has", () => {
    expect(keyName(written("C major").concert)).toBe("D major");
    expect(ofB.filter((key) => key.crossFingeredTonic).map((key) => keyName(key.written))).toEqual(["C major"]);
    expect(written("C major").tonicNote).toBe("c-natural");
  });

  it("has a plain fifth in every one of the sixteen but those whose fifth is C, F or G sharp", () => {
    const crossed = ofB.filter((key) => key.crossFingeredFifth).map((key) => keyName(key.written));
    expect(crossed).toEqual([]);
  });

  it("comes with fewest cross-fingerings first", () => {
    expect(ofB.map((key) => key.needs.length)).toEqual([0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2]);
  });

  it("has at most six accidentals in its signature, on any chanter", () => {
    for (const chanter of ["A", "Bb", "B"] as const) {
      for (const key of keysAtMost(defaultSetup(chanter)))
        expect(Math.abs(fifthsOf(key.concert)), keyName(key.concert)).toBeLessThanOrEqual(6);
    }
  });
});

it("Every key is found that a search over all 48 keys and all subsets of cross-fingerings finds, with the smallest subset", () => {
  const classOf = (note: (typeof CHANTER_NOTES)[number]) => semitoneOf(concertPitch(writtenPitchOf(note))) % 12;
  const plain = CHANTER_NOTES.filter((note) => !(CROSS_FINGERED_NOTES as readonly string[]).includes(note)).map(classOf);
  const subsets = [0, 1, 2, 3, 4, 5, 6, 7].map((bits) => CROSS_FINGERED_NOTES.filter((_, index) => bits & (1 << index)));
  const expected: string[] = [];
  for (const tonic of ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]) {
    for (const mode of MODES) {
      const classes = scalePitchClasses({ tonic, mode });
      const enough = subsets.filter((subset) => classes.every((value) => [...plain, ...subset.map(classOf)].includes(value)));
      const smallest = enough.toSorted((a, b) => a.length - b.length)[0];
      if (smallest) expected.push(`${tonic} ${mode}: ${smallest.join()}`);
    }
  }
  const found = keysAtMost(defaultSetup("A")).map((key) => `${keyName(key.written)}: ${key.needs.join()}`);
  expect(found.toSorted()).toEqual(expected.toSorted());
});
