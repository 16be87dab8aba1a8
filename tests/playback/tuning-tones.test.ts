import { expect, test } from "vitest";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { tuningTones } from "../../src/playback/tuning-tones.ts";
import type { Score } from "../../src/score/score.ts";
import { pipeScore } from "../support/playback-scores.ts";
import { pipeNote } from "../support/written-music.ts";

const score = pipeScore([[pipeNote("e", 3840)]]);

test("one set of pipes beside a band at 440 tunes to low A, tenor, bass and the band's A, two tenors being one tone", () => {
  expect(tuningTones(score).map(({ name, pitch, hertz }) => [name, pitch, Math.round(hertz * 100) / 100])).toEqual([
    ["low A", "B♭4", 466.16],
    ["tenor", "B♭3", 233.08],
    ["bass", "B♭2", 116.54],
    ["the band’s A", "A4", 440],
  ]);
});

test("two sets are told apart by their names", () => {
  const [pipes] = score.lines;
  const two = { ...score, lines: [...score.lines, { ...pipes, id: "second", name: "Pipes 2", setup: defaultSetup("A") }] } as Score;
  expect(tuningTones(two).map(({ name }) => name)).toContain("Pipes 2, low A");
});
