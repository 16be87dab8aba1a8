import { expect, it } from "vitest";
import { songFromText } from "../../src/exchange/reading/read-song.ts";
import { melodyGuesses } from "../../src/song/melody-guess.ts";
import type { Song } from "../../src/song/song.ts";

/** A song of voices in ABC, each with a name. */
function song(...voices: readonly (readonly [name: string, music: string, words?: string])[]): Song {
  const lines = voices.map(([name, music, words], index) => `V:${index + 1} name="${name}"\n${music}${words ? `\nw: ${words}` : ""}`);
  return songFromText(`X:1\nM:4/4\nL:1/4\nK:C\n${lines.join("\n")}\n`, "song.abc");
}

/** The likely tune's name, and what speaks for it, weightiest first. */
const tuneOf = (read: Song): readonly unknown[] => {
  const [best] = melodyGuesses(read);
  return [read.lines[best?.line ?? -1]?.name, best?.reasons.map(({ reason }) => reason)];
};

it("A line with words is the tune, though another lies higher", () => {
  const read = song(["One", "c c c c | d d d d"], ["Two", "C E G E | C E G E", "slow lan- tern wea- ther falls a- way now"]);
  expect(tuneOf(read)).toEqual(["Two", ["has-words", "single-notes", "range"]]);
});

it("A name tells where there are no words", () => {
  expect(tuneOf(song(["Strings", "c e g e | c e g e"], ["Melody", "C E G E | C E G E"]))[0]).toBe("Melody");
  expect(tuneOf(song(["Bass voice", "c e g e | c e g e"], ["Lead", "C E G E | C E G E"]))[0]).toBe("Lead");
});

it("Without words or names the highest line of single notes is, before one of chords or one that is nearly silent", () => {
  const read = song(
    ["1a", "z4 | z4 | z4 | g e' z2"],
    ["2a", "[ce][df][eg][df]|[ce][df][eg][df]|[ce]4|[ce]4"],
    ["3a", "G B d B | G B d B | G4 | G4"],
  );
  expect(tuneOf(read)[0]).toBe("3a");
});

it("Every line is weighed, and a reason is counted once", () => {
  const guesses = melodyGuesses(song(["A1", "c4"], ["B1", "C4"]));
  expect(guesses.map(({ line }) => line).toSorted()).toEqual([0, 1]);
  for (const { weight, reasons } of guesses) expect(reasons.reduce((sum, one) => sum + one.weight, 0)).toBeCloseTo(weight);
});
