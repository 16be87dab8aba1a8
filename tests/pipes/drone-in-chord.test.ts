import { expect, test } from "vitest";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { droneInChord } from "../../src/pipes/drone-in-chord.ts";

/* What the A drone is in a chord. *Source:* arithmetic on the chords; the list of written chords is common practice. */
test.each([
  ["A", "root", false],
  ["D", "fifth", false],
  ["G", "ninth", false],
  ["C", "sixth", false],
  ["F", "third", false],
  ["Em", "fourth", false],
  ["F#m", "third", false],
  ["Bm", "seventh", false],
  ["Am", "root", false],
  ["Dm", "fifth", false],
  ["E", "fourth", true],
  ["C#m", "sixth", true],
  ["Dmaj7", "fifth", false],
  ["Bbmaj7", "seventh", false],
] as const)("in %s an A drone is the %s", (symbol, degree, rubs) => {
  expect(droneInChord(defaultSetup("A"), symbol)).toEqual({ degree, rubs });
});

test("on a B chanter everything lies a tone higher: in F sharp the drone is the fourth, and rubs", () => {
  expect(droneInChord(defaultSetup("B"), "F#")).toEqual({ degree: "fourth", rubs: true });
  expect(droneInChord(defaultSetup("B"), "E")).toEqual({ degree: "fifth", rubs: false });
});

test("where no chord sounds the drone has no place in it", () => {
  expect(droneInChord(defaultSetup("A"), "N.C.")).toBeNull();
  expect(droneInChord(defaultSetup("A"), "slowly")).toBeNull();
});
