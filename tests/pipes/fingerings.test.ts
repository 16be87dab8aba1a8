import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CROSS_FINGERED_NOTES, NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { CROSS_FINGERING_TABLE, crossFingeringEntry, defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import {
  fingeringOf,
  formatHoles,
  type Hole,
  holesOf,
  isHoles,
  PLAIN_FINGERINGS,
  parseHoles,
  spokenHoles,
} from "../../src/pipes/fingerings.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import { cents } from "../../src/units/cents.ts";
import { seeded } from "../support/pitches.ts";

describe("the fingerings of the nine", () => {
  it("are as pipers are taught them (common practice)", () => {
    expect(NINE_NOTES.map((note) => PLAIN_FINGERINGS[note])).toEqual([
      "X XXX XXXX",
      "X XXX XXXO",
      "X XXX XXOO",
      "X XXX XOOX",
      "X XXX OOOX",
      "X XXO XXXO",
      "X XOO XXXO",
      "X OOO XXXO",
      "O OOX XXXO",
    ]);
  });

  it("move 1, 1, 2, 1, 5, 1, 1, 2 fingers from note to note upwards (derived from the table)", () => {
    const moved = NINE_NOTES.slice(1).map((note, index) => {
      const [from, to] = [
        parseHoles(PLAIN_FINGERINGS[NINE_NOTES[index] as (typeof NINE_NOTES)[number]]),
        parseHoles(PLAIN_FINGERINGS[note]),
      ];
      return to.filter((hole, at) => hole !== from[at]).length;
    });
    expect(moved).toEqual([1, 1, 2, 1, 5, 1, 1, 2]);
  });

  it("are nine different ones, and no cross-fingering is one of them", () => {
    const all = [...Object.values(PLAIN_FINGERINGS), ...CROSS_FINGERING_TABLE.flatMap(({ holes }) => holes)];
    expect(new Set(all).size).toBe(all.length);
    expect(all.every(isHoles)).toBe(true);
  });
});

describe("a cross-fingering", () => {
  it("does not speak until it is ticked", () => {
    expect(defaultCrossFingerings().map(({ note, speaks }) => [note, speaks])).toEqual(CROSS_FINGERED_NOTES.map((note) => [note, false]));
    expect(defaultCrossFingerings(["f-natural"]).map(({ speaks }) => speaks)).toEqual([false, true, false]);
  });

  it("says where holes and cents come from, and that the cents are not measured", () => {
    for (const note of CROSS_FINGERED_NOTES) {
      expect(crossFingeringEntry(note).holesSource.length).toBeGreaterThan(5);
      expect(crossFingeringEntry(note).centsSource).toContain("Not measured");
    }
    expect(crossFingeringEntry("high-g-sharp").holes).toEqual(["O XXX XXXO"]);
  });

  it("is fingered as the piper has it", () => {
    const setup = withCrossFingering(defaultSetup("B"), "c-natural", { holes: "X XXX XOXO", cents: cents(300) });
    expect(holesOf(setup, "c-natural")).toBe("X XXX XOXO");
    expect(holesOf(setup, "c")).toBe("X XXX XOOX");
    expect(fingeringOf(setup, "c-natural").filter((hole) => hole === "open").length).toBe(2);
  });
});

describe("holes as text", () => {
  const eightHoles = fc.array(fc.constantFrom<Hole>("closed", "open", "half"), { minLength: 8, maxLength: 8 });

  it("go to text and back", () => {
    fc.assert(
      fc.property(eightHoles, (holes) => {
        expect(parseHoles(formatHoles(holes))).toEqual(holes);
        expect(isHoles(formatHoles(holes))).toBe(true);
      }),
      seeded,
    );
  });

  it("may be typed without spaces and in small letters", () => {
    expect(formatHoles(parseHoles("xxxxxxxo"))).toBe("X XXX XXXO");
  });

  it("are refused when there are not eight, or with another sign", () => {
    for (const text of ["", "XXXXXXX", "XXXXXXXXX", "X XXX XXX?"]) expect(() => parseHoles(text), text).toThrow("eight holes");
    expect(isHoles("XXXXXXXO")).toBe(false);
  });

  it("are spoken by the fingers that are off", () => {
    expect(spokenHoles("X XXX XXXX")).toBe("all holes closed");
    expect(spokenHoles("X XXX XXXO")).toBe("lower little open");
    expect(spokenHoles("O OOX XXXO")).toBe("thumb, upper index, upper middle and lower little open");
    expect(spokenHoles("X HXX XXXO")).toBe("lower little open, upper index half open");
  });
});
