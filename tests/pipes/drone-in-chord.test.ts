import { expect, test } from "vitest";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { droneInChord } from "../../src/pipes/drone-in-chord.ts";
import { PLAIN_FINGERINGS } from "../../src/pipes/fingerings.ts";
import { gracenotesInReach } from "../../src/pipes/gracenotes-in-reach.ts";

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

test("a G gracenote is in reach under high G, D under D, E under E, the thumb under high A", () => {
  expect(gracenotesInReach("low-g")).toEqual(["high-g", "d", "e", "high-a"]);
  expect(gracenotesInReach("d")).toEqual(["high-g", "e", "high-a"]);
  expect(gracenotesInReach("f")).toEqual(["high-g", "high-a"]);
  expect(gracenotesInReach("high-g")).toEqual(["high-a"]);
  expect(gracenotesInReach("high-a")).toEqual(["high-g"]);
  expect(gracenotesInReach("high-g-sharp")).toEqual(["high-g"]);
});

/** The finger each gracenote lifts, by its place among the eight holes. *Source:* graded lessons: one finger lifted. */
const FINGERS = { "high-a": 0, "high-g": 1, e: 3, d: 4 } as const;

test("every gracenote in reach, but for the strike on high A, lifts a finger that is down", () => {
  for (const note of NINE_NOTES.filter((one) => one !== "high-a")) {
    const holes = PLAIN_FINGERINGS[note].replaceAll(" ", "");
    for (const gracenote of gracenotesInReach(note))
      expect(holes[FINGERS[gracenote as keyof typeof FINGERS]], `${gracenote} on ${note}`).toBe("X");
  }
});
