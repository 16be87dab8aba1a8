import { expect, it } from "vitest";
import type { CrossFingeredNote } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { measuredFrom } from "../../src/pipes/scales.ts";
import { shiftedByOctaves, withBaritone, withDrone } from "../../src/pipes/setup-changes.ts";
import { chanterWords, crossFingeringWords, droneWords, scaleWords } from "../../src/pipes/setup-words.ts";
import type { Key } from "../../src/pitch/key.ts";
import { keyFromName } from "../../src/pitch/key-signature.ts";

const onB = defaultSetup("B");

function crossed(speaking: readonly CrossFingeredNote[], key: Key | null = null): string {
  const { subject, rest } = crossFingeringWords({ ...onB, crossFingerings: defaultCrossFingerings(speaking) }, key);
  return `${subject}${rest}.`;
}

it("A chanter is called by the name of its low A, smallpipes by theirs", () => {
  expect(chanterWords(defaultSetup("Bb"))).toBe("B♭ chanter");
  expect(chanterWords(shiftedByOctaves(defaultSetup("Bb"), -1))).toBe("B♭ smallpipes");
});

it("What speaks is said in one sentence", () => {
  expect(crossed([])).toBe("No cross-fingering speaks.");
  expect(crossed(["high-g-sharp"])).toBe("High G♯ speaks; C and F natural do not.");
  expect(crossed(["c-natural"])).toBe("C natural speaks; F natural and high G♯ do not.");
  expect(crossed(["c-natural", "f-natural"])).toBe("C and F natural speak; high G♯ does not.");
  expect(crossed(["c-natural", "f-natural", "high-g-sharp"])).toBe("High G♯, C natural and F natural speak.");
});

it("The leading tone is called so in a key that has it cross-fingered (concert B on a B chanter), and not in one that has it plain (E)", () => {
  expect(crossed(["high-g-sharp"], keyFromName("B major"))).toBe("The leading tone speaks; C and F natural do not.");
  expect(crossed(["c-natural"], keyFromName("B major"))).toBe("C natural speaks; the leading tone and F natural do not.");
  expect(crossed(["high-g-sharp"], keyFromName("E major"))).toBe("High G♯ speaks; C and F natural do not.");
});

it("Drones are counted by name, corked ones left out", () => {
  expect(droneWords(onB)).toBe("two tenors and a bass");
  expect(droneWords(withBaritone(onB))).toBe("a baritone, two tenors and a bass");
  expect(droneWords(withDrone(onB, 0, { on: false }))).toBe("a tenor and a bass");
  expect(droneWords({ ...onB, drones: [] })).toBe("none");
});

it("A scale is called by its name, or by who measured it", () => {
  expect(scaleWords(onB)).toBe("septimal");
  expect(scaleWords({ ...onB, scale: measuredFrom(onB.scale) })).toBe("as you measured it");
});
