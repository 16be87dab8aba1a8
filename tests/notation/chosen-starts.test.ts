import { expect, test } from "vitest";
import { chosenStarts } from "../../components/notation/chosen-starts.ts";
import { momentForKey } from "../../components/notation/note-keys.ts";
import { momentOnBeat } from "../../src/score/moment-on-beat.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { lanternScore } from "../support/lantern-score.ts";

const score = lanternScore("Bb");
const [pipes, doubler, own] = score.lines as [Line, Line, Line];
const at = (bar: number, moment: number, line = "pipes") => ({ line, bar, at: ticks(moment) });

test("a chosen note is chosen with what it is tied to over the bar line, in its own part and in the one that doubles it", () => {
  for (const line of [pipes, doubler]) {
    const starts = chosenStarts(score, line, { kind: "note", at: at(4, 2160) });
    expect([...starts(4)]).toEqual([2160]);
    expect([...starts(5)]).toEqual([0]);
  }
  const starts = chosenStarts(score, own, { kind: "note", at: at(4, 2160) });
  expect([4, 5].flatMap((bar) => [...starts(bar)])).toEqual([]);
});

test("a stretch is chosen from its first moment up to its end, which is not in it", () => {
  const starts = chosenStarts(score, pipes, { kind: "stretch", line: "pipes", from: at(1, 1440), to: at(2, 0) });
  expect([0, 1, 2].map((bar) => [...starts(bar)])).toEqual([[], [1440, 1680, 1920, 2240, 2560, 2880], []]);
});

test("nothing chosen is nothing", () => {
  expect([...chosenStarts(score, pipes, { kind: "nothing" })(1)]).toEqual([]);
});

test("arrow keys lead over bar lines and stop at both ends, Home and End lead there, and other keys are left alone", () => {
  expect(momentForKey("ArrowLeft", score, pipes, at(1, 0))).toMatchObject({ bar: 0, at: 480 });
  expect(momentForKey("ArrowLeft", score, pipes, at(0, 0))).toBeNull();
  expect(momentForKey("End", score, pipes, at(0, 0))).toMatchObject({ bar: 5, at: 1440 });
  expect(momentForKey("ArrowRight", score, pipes, at(5, 1440))).toBeNull();
  expect(momentForKey("Home", score, pipes, at(3, 0))).toEqual({ bar: 0, at: 0 });
  expect(momentForKey("Tab", score, pipes, at(3, 0))).toBeUndefined();
});

test("for those who want nothing to glide the moment stands on its beat: in 4/4, in 6/8, and in a pickup that is the bar's fourth beat", () => {
  const on = (bar: number, moment: number) => momentOnBeat(score.frames[bar] as Score["frames"][number], { bar, at: ticks(moment) }).at;
  expect([0, 959, 960, 3839].map((moment) => on(1, moment))).toEqual([0, 0, 960, 2880]);
  expect([1439, 1440, 2000].map((moment) => on(4, moment))).toEqual([0, 1440, 1440]);
  expect([0, 700].map((moment) => on(0, moment))).toEqual([0, 0]);
});
