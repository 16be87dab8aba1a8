import { describe, expect, test } from "vitest";
import { shownPlace } from "../../components/grid/reading.ts";
import { type CellFacts, spokenBeat, spokenCell, spokenLength } from "../../components/grid/spoken-cell.ts";
import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { Frame } from "../../src/score/frame.ts";
import { newScore } from "../../src/score/new-score.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

const setup = defaultSetup("B");
const frame = newScore({ setup, key: { tonic: "B", mode: "major" } }).frames[0] as Frame;
const note = { kind: "note", ticks: 1920, begins: true, gracenotes: [], before: null, strikeIn: false, cutOff: false } as const;

function spoken(here: CellFacts["here"], at = 1920, findings: readonly number[] = []): string {
  return spokenCell({ barNumber: 19, frame, at, here, findings }, setup, hertz(440));
}

describe("a cell", () => {
  test("with a note: place, name, role in the key, length, concert pitch, cents, findings", () => {
    const said = spoken({ ...note, note: "high-g-sharp" }, 1920, [3]);
    expect(said).toBe("Bar 19, beat 3. High G sharp, leading tone, two beats. A sharp 5, 12 cents low. Outside this setup. Finding 3.");
    expect(spoken({ ...note, note: "low-a" }, 0)).toBe("Bar 19, beat 1. Low A, two beats. B 4, in tune with the band.");
  });

  test("with gracenotes, a strike-in and a cut-off", () => {
    const said = spoken({ ...note, note: "d", gracenotes: ["high-g"], strikeIn: true, cutOff: true }, 0);
    expect(said).toBe("Bar 19, beat 1. D, two beats. E 5, 2 cents low. Strike-in. G gracenote. Cut-off after it.");
  });

  test("with a group, by its name and its notes; one without a name by its notes alone", () => {
    const graced = (gracenotes: readonly PlainNote[], before: ChanterNote) =>
      spoken({ ...note, note: "d", gracenotes, before }, 0)
        .split(". ")
        .slice(3)
        .join(". ");
    expect(graced(["low-g", "d", "c"], "b")).toBe("Light throw, low G D C. Low A can sound on the way.");
    expect(graced(["d", "c"], "low-g")).toBe("Light throw, D C.");
    expect(graced(["c"], "d")).toBe("C strike.");
    expect(graced(["high-g", "e", "high-g", "e"], "b")).toBe("Gracenotes high G E high G E. C can sound on the way.");
  });

  test("with what can sound on the way to it, as a piper listens for it", () => {
    const toE = (before: ChanterNote | null) => spoken({ ...note, note: "e", before }, 0);
    expect(toE("d")).toMatch(/ C, B, low A or low G can sound on the way\.$/);
    expect(toE("b")).toMatch(/ Low A can sound on the way\.$/);
    for (const before of ["low-a", "e", null] as const) expect(toE(before)).not.toContain("on the way");
  });

  test("through which a note goes on, through which the chanter sounds on, and an empty one", () => {
    expect(spoken({ ...note, note: "e", begins: false })).toBe("Bar 19, beat 3. E, held.");
    expect(spoken({ kind: "held-rest", note: "e" })).toBe("Bar 19, beat 3. Rest, E sounds on.");
    expect(spoken({ kind: "empty", row: "low-a" }, 2880)).toBe("Bar 19, beat 4. Low A, empty.");
  });
});

test.each([
  [{ beats: 4, unit: 4 }, 480, "beat 1 and a half"],
  [{ beats: 4, unit: 4 }, 1200, "beat 2 and a quarter"],
  [{ beats: 4, unit: 4 }, 1280, "beat 2 and a third"],
  [{ beats: 6, unit: 8 }, 1440, "beat 2"],
  [{ beats: 6, unit: 8 }, 480, "beat 1 and a third"],
  [{ beats: 3, unit: 4 }, 120, "beat 1 and an eighth"],
] as const)("in %o tick %i is %s", (meter, at, words) => {
  expect(spokenBeat(meter, at)).toBe(words);
});

test.each([
  [{ beats: 4, unit: 4 }, 960, "one beat"],
  [{ beats: 4, unit: 4 }, 480, "half a beat"],
  [{ beats: 4, unit: 4 }, 1440, "one and a half beats"],
  [{ beats: 4, unit: 4 }, 240, "a quarter of a beat"],
  [{ beats: 6, unit: 8 }, 1440, "one beat"],
  [{ beats: 6, unit: 8 }, 960, "two thirds of a beat"],
] as const)("in %o %i ticks are %s", (meter, length, words) => {
  expect(spokenLength(meter, length)).toBe(words);
});

test("a place is named by bars where they are whole, by beats otherwise", () => {
  const score = pipeSketch("d4! e4 | f8 | z8 | z8");
  expect(shownPlace(score, 0, ticks(3840))).toBe("bar 1");
  expect(shownPlace(score, 3840, 3840 * 3)).toBe("bars 2 to 3");
  expect(shownPlace(score, 1920, 3840)).toBe("bar 1 beats 3 and 4");
  expect(shownPlace(score, 0, 2880)).toBe("bar 1 beats 1 to 3");
  expect(shownPlace(score, 480, 960)).toBe("bar 1 beat 1 and a half");
  expect(shownPlace(score, 1920, 4800)).toBe("bar 1 beat 3 to bar 2 beat 1");
});
