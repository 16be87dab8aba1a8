import fc from "fast-check";
import { expect, test } from "vitest";
import { gateAt, gateLine } from "../../src/playback/gate.ts";
import { seconds } from "../../src/units/seconds.ts";

const TIMES = { opens: seconds(0.01), closes: seconds(0.03) };
const line = (...spans: readonly (readonly [number, number])[]) =>
  gateLine(
    spans.map(([start, stop]) => ({ start: seconds(start), stop: seconds(stop) })),
    TIMES,
  ).map(({ at, value }) => [Number(at.toFixed(4)), value]);

test("a gate opens after the start and closes after the stop", () => {
  expect(line([1, 2])).toEqual([
    [1, 0],
    [1.01, 1],
    [2, 1],
    [2.03, 0],
  ]);
});

test("it has closed by the next start, in 4 ms where one begins as another ends", () => {
  expect(line([0, 1], [1.01, 2])).toEqual([
    [0, 0],
    [0.01, 1],
    [1, 1],
    [1.01, 0],
    [1.01, 0],
    [1.02, 1],
    [2, 1],
    [2.03, 0],
  ]);
  expect(line([0, 1], [1, 2]).slice(2, 5)).toEqual([
    [0.996, 1],
    [1, 0],
    [1, 0],
  ]);
});

test("a span shorter than its opening still opens and closes", () => {
  expect(line([0, 0.004])).toEqual([
    [0, 0],
    [0.004, 1],
    [0.004, 1],
    [0.034, 0],
  ]);
});

test("for any spans the line goes forward in time and stays between shut and open", () => {
  const anySpans = fc
    .array(fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 0, max: 400 })), { maxLength: 12 })
    .map((pieces) => {
      let at = 0;
      return pieces.map(([length, gap]) => {
        const start = at + gap / 1000;
        at = start + length / 1000;
        return { start: seconds(start), stop: seconds(at) };
      });
    });
  fc.assert(
    fc.property(anySpans, (spans) => {
      const points = gateLine(spans, TIMES);
      for (const [index, { at }] of points.entries()) if (index > 0) expect(at).toBeGreaterThanOrEqual(points[index - 1]?.at as number);
      for (const { start, stop } of spans) expect(gateAt(points, (start + stop) / 2)).toBeGreaterThan(0);
      for (let at = -0.05; at < 6; at += 0.0173) {
        expect(gateAt(points, at)).toBeGreaterThanOrEqual(0);
        expect(gateAt(points, at)).toBeLessThanOrEqual(1);
      }
    }),
    { seed: 7_301, numRuns: 200 },
  );
});

test("between its corners a gate's line is straight, and before and after them level", () => {
  const points = gateLine([{ start: seconds(1), stop: seconds(2) }], TIMES);
  expect([0, 1.005, 1.5, 2.015, 3].map((at) => Number(gateAt(points, at).toFixed(6)))).toEqual([0, 0.5, 1, 0.5, 0]);
  expect(gateAt([], 1)).toBe(0);
});
