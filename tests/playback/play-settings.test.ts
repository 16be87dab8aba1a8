import { expect, test } from "vitest";
import { beatAt, momentInWords } from "../../src/playback/beat-at.ts";
import { loopInWords, stretchOfBars, wholeBars } from "../../src/playback/play-settings.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeScore, secondFrame } from "../support/playback-scores.ts";
import { pipeNote } from "../support/written-music.ts";

const frames = [secondFrame({ short: ticks(960) }), ...Array.from({ length: 6 }, () => secondFrame())];
const score = pipeScore(
  frames.map(({ short }) => [pipeNote("e", short ?? 3840)]),
  { frames },
);
const moment = (bar: number, at: number) => ({ bar, at: ticks(at) });

test.each([
  [null, "no loop"],
  [stretchOfBars(score, 3, 3), "loop bar 3"],
  [stretchOfBars(score, 3, 6), "loop bars 3 to 6"],
  [{ from: moment(3, 0), to: moment(5, 0) }, "loop bars 3 to 4"],
  [{ from: moment(3, 960), to: moment(4, 1920) }, "loop bar 3, beat 2 to bar 4, beat 3"],
])("the loop %o reads %s", (loop, words) => {
  expect(loopInWords(score, loop)).toBe(words);
});

test("a stretch of bars covers them whole, and nothing less is whole", () => {
  expect(wholeBars(score, stretchOfBars(score, 0, 2))).toEqual({ first: 0, last: 2 });
  expect(wholeBars(score, { from: moment(1, 0), to: moment(2, 1920) })).toBeNull();
  expect(wholeBars(score, { from: moment(1, 0), to: moment(1, 0) })).toBeNull();
});

test("beats are counted from 1, and a pickup has the last beat of its bar", () => {
  expect([0, 959, 960, 3839].map((at) => beatAt(secondFrame(), at))).toEqual([1, 1, 2, 4]);
  expect(beatAt(secondFrame({ short: ticks(960) }), 0)).toBe(4);
  expect([0, 1440].map((at) => beatAt(secondFrame({ meter: { beats: 6, unit: 8 } }), at))).toEqual([1, 2]);
  expect(momentInWords(score, moment(0, 0))).toBe("bar 0, beat 4");
  expect(momentInWords(score, moment(2, 1000))).toBe("bar 2, beat 2");
});
