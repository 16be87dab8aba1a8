import { expect, test } from "vitest";
import { carriedInto, carriedThrough } from "../../src/score/carried-note.ts";
import { chordHeldInto, chordSpans } from "../../src/score/chords-in-force.ts";
import { newScore } from "../../src/score/new-score.ts";
import type { PipeLine } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

const frames = newScore({ bars: 3 }).frames.map((frame, index) =>
  index === 0
    ? {
        ...frame,
        chords: [
          { at: ticks(960), symbol: "E" },
          { at: ticks(2880), symbol: "A" },
        ],
      }
    : frame,
);

test("a chord holds to the next one, or to the end of the bar", () => {
  expect(chordSpans(frames, 0)).toEqual([
    { from: 960, to: 2880, symbol: "E", begins: true },
    { from: 2880, to: 3840, symbol: "A", begins: true },
  ]);
});

test("the last chord of a bar holds through the bars after it that have none", () => {
  expect(chordHeldInto(frames, 0)).toBeNull();
  expect(chordHeldInto(frames, 2)).toBe("A");
  expect(chordSpans(frames, 2)).toEqual([{ from: 0, to: 3840, symbol: "A", begins: false }]);
});

test("there is no chord outside the score", () => {
  expect(chordSpans(frames, 3)).toEqual([]);
});

test("the chanter sounds on from bar to bar until it is cut off", () => {
  const { bars } = pipeSketch("d8! | z8 | e4. z4 | z8").lines[0] as PipeLine;
  expect([0, 1, 2, 3, 4].map((index) => carriedInto(bars, index))).toEqual([null, "d", "d", null, null]);
  let sounding: ReturnType<typeof carriedInto> = null;
  bars.forEach((bar, index) => {
    sounding = carriedThrough(bar, sounding);
    expect(sounding).toBe(carriedInto(bars, index + 1));
  });
});
