import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { barAtPlace, barPlaces, barsBetween, placeOfTime, timeAtPlace } from "../../components/grid/bar-places.ts";
import { columnAt, columnBeside, columnEnd, columnsBefore, columnsOf } from "../../components/grid/grid-columns.ts";
import { nearestStep, stepEnd, stepStart, tupletOf } from "../../components/grid/grid-step.ts";
import type { PipeBar } from "../../src/score/bar.ts";
import { barStarts, scoreTicks } from "../../src/score/bar-starts.ts";
import type { Frame } from "../../src/score/frame.ts";
import type { PipeLine } from "../../src/score/score.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

const score = pipeSketch("d3! e3 f2 | 3:d320/480 3:e320/480 3:f320/480 d6 | z8");
const line = score.lines[0] as PipeLine;
const { frames } = score;

describe("places", () => {
  const widths = [100, 200, 300];

  test("bars stand one after the other, the end last", () => {
    expect(barPlaces(widths)).toEqual([0, 100, 300, 600]);
    expect([0, 99, 100, 299, 300, 900].map((x) => barAtPlace(widths, x))).toEqual([0, 0, 1, 1, 2, 2]);
    expect(barsBetween(widths, 100, 300)).toEqual({ first: 1, last: 1 });
  });

  test("time runs evenly inside a bar, and place and time are each other's inverse", () => {
    expect(placeOfTime(frames, widths, 1920)).toBe(50);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: scoreTicks(frames) - 1 }), (time) => {
        expect(timeAtPlace(frames, widths, placeOfTime(frames, widths, time))).toBeCloseTo(time, 6);
      }),
      { seed: 20, numRuns: 200 },
    );
  });
});

describe("steps", () => {
  test("a step begins at or before a time and ends after it, at a bar line at the latest", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: scoreTicks(frames) - 1 }),
        fc.constantFrom("quarter", "eighth", "sixteenth", "thirty-second", "triplet" as const),
        (time, step) => {
          const from = stepStart(frames, time, step);
          const to = stepEnd(frames, time, step);
          expect(from <= time && time < to).toBe(true);
          expect(barStarts(frames).some((start) => start > from && start < to)).toBe(false);
        },
      ),
      { seed: 21, numRuns: 300 },
    );
  });

  test("the nearest edge of a step is the one a hand means", () => {
    expect([200, 239, 241, 700].map((time) => nearestStep(frames, time, "eighth"))).toEqual([0, 0, 480, 480]);
  });

  test("three triplet eighths fill a quarter and need no tuplet", () => {
    expect([320, 640, 960].map((length) => tupletOf(length, "triplet"))).toEqual([3, 3, null]);
    expect(tupletOf(480, "eighth")).toBeNull();
  });
});

describe("columns", () => {
  test("a bar has a column for each step and for each note between steps", () => {
    expect(columnsOf(line.bars[0] as PipeBar, frames[0] as Frame, "quarter")).toEqual([0, 960, 1440, 1920, 2880]);
    expect(columnsBefore(line, frames, "quarter")).toEqual([0, 5, 11, 15]);
    const other = { ...line, bars: line.bars.with(1, line.bars[2] as PipeBar) };
    expect(columnsBefore(other, frames, "quarter")).toEqual([0, 5, 9, 13]);
    const same = columnsBefore(line, frames, "quarter");
    expect(columnsBefore({ ...line, bars: line.bars.with(2, { ...(line.bars[2] as PipeBar) }) }, frames, "quarter")).toBe(same);
  });

  test("going on and going back come by the same columns, and stop at the ends", () => {
    const there: number[] = [0];
    for (let time = 0; time < scoreTicks(frames); ) {
      time = columnBeside(line, frames, time, 1, "quarter");
      there.push(time);
    }
    expect(there.at(-1)).toBe(scoreTicks(frames));
    const back: number[] = [scoreTicks(frames)];
    for (let time: number = scoreTicks(frames); time > 0; ) {
      time = columnBeside(line, frames, time, -1, "quarter");
      back.push(time);
    }
    expect(back.reverse()).toEqual(there);
    expect(columnBeside(line, frames, scoreTicks(frames), 1, "quarter")).toBe(scoreTicks(frames));
  });

  test("a column ends where the next begins", () => {
    expect(columnAt(line, frames, 1500, "quarter")).toBe(1440);
    expect(columnEnd(line, frames, 1440, "quarter")).toBe(1920);
    expect(columnEnd(line, frames, 2880, "quarter")).toBe(3840);
  });
});
