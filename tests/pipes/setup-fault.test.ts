import { describe, expect, it } from "vitest";
import type { PlainNote } from "../../src/pipes/chanter-note.ts";
import { CHANTER_NAMES, defaultSetup } from "../../src/pipes/default-setups.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { measuredFrom } from "../../src/pipes/scales.ts";
import { shiftedByOctaves, withBaritone, withFingering } from "../../src/pipes/setup-changes.ts";
import { setupFault } from "../../src/pipes/setup-fault.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import { cents } from "../../src/units/cents.ts";
import { hertz } from "../../src/units/hertz.ts";

const good = defaultSetup("B");

describe("a setup", () => {
  it("as it comes has no fault, on every chanter, with a baritone, measured, and on smallpipes", () => {
    for (const name of CHANTER_NAMES) expect(setupFault(defaultSetup(name))).toBeNull();
    expect(setupFault(withBaritone(good))).toBeNull();
    expect(setupFault({ ...good, scale: measuredFrom(good.scale) })).toBeNull();
    expect(setupFault(shiftedByOctaves(good, -1))).toBeNull();
    expect(setupFault(defaultSetup(hertz(480)))).toBeNull();
    expect(setupFault(withFingering(good, "d", "X XXX OOOO"))).toBeNull();
  });

  const measured = (change: Partial<Record<PlainNote, number>>): PipeSetup => {
    const own = measuredFrom(good.scale);
    if (own.kind !== "measured") throw new RangeError("measuredFrom measures");
    return { ...good, scale: { ...own, cents: { ...own.cents, ...change } as typeof own.cents } };
  };

  it.each<[string, PipeSetup, string]>([
    ["low A below 150 Hz", { ...good, lowA: hertz(100) }, "lowA"],
    ["a name four semitones off", { ...good, lowAIs: concertPitch("G4") }, "lowAIs"],
    ["a name in the wrong octave", { ...good, lowAIs: concertPitch("B3") }, "lowAIs"],
    ["a measured low A that is not 0", measured({ "low-a": 3 }), "scale.cents.low-a"],
    ["a measured C under B", measured({ c: 150 }), "scale.cents.c"],
    ["a measured high A far away", measured({ "high-a": 1500 }), "scale.cents.high-a"],
    ["a cross-fingering missing", { ...good, crossFingerings: good.crossFingerings.slice(1) }, "crossFingerings"],
    ["cross-fingerings out of order", { ...good, crossFingerings: good.crossFingerings.toReversed() }, "crossFingerings[0].note"],
    ["a D of seven holes", withFingering(good, "d", "X XXX OOO"), "fingerings.d"],
    ["E fingered as D is", withFingering(good, "e", good.fingerings.d), "fingerings.e"],
    [
      "seven holes",
      { ...good, crossFingerings: good.crossFingerings.map((own) => ({ ...own, holes: "X XXX XXX" })) },
      "crossFingerings[0].holes",
    ],
    [
      "a cross-fingering out of reach",
      { ...good, crossFingerings: good.crossFingerings.map((own) => ({ ...own, cents: cents(2000) })) },
      "crossFingerings[0].cents",
    ],
    ["a drone above low A", { ...good, drones: [{ name: "tenor", ratio: [2, 1], on: true }] }, "drones[0].ratio"],
    ["a drone with no whole ratio", { ...good, drones: [{ name: "tenor", ratio: [1, 2.5], on: true }] }, "drones[0].ratio"],
  ])("with %s is faulty, and says where", (_, setup, where) => {
    expect(setupFault(setup)?.where).toBe(where);
  });
});
