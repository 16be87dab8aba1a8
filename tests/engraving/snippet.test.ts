import { expect, test } from "vitest";
import { snippetOf } from "../../src/engraving/snippet.ts";
import type { PipeLine } from "../../src/score/score.ts";
import { lanternScore } from "../support/lantern-score.ts";

const score = lanternScore();
const pipes = score.lines[0] as PipeLine;

test("a snippet has the staff's head and each of its bars, end to end, as wide as was asked to a hundredth of a pixel a bar", () => {
  const { staves, box } = snippetOf(score, pipes, { first: 1, last: 2 }, 420);
  expect(staves).toHaveLength(3);
  staves.forEach(({ x }, index) => {
    const before = staves[index - 1];
    expect(x).toBeCloseTo(before === undefined ? 0 : before.x + before.drawing.width, 1);
  });
  const last = staves.at(-1);
  expect((last?.x ?? 0) + (last?.drawing.width ?? 0)).toBeCloseTo(420, 1);
  expect(box.left).toBeLessThanOrEqual(0);
  expect(box.right).toBeGreaterThanOrEqual(420 - 0.1);
});

test("chords stand over the pipes in it, and all ink lies in its box", () => {
  const { staves, box } = snippetOf(score, pipes, { first: 1, last: 1 }, 300);
  expect(staves.flatMap(({ drawing }) => drawing.groups).map(({ role }) => role)).toContain("chord");
  for (const { drawing, x } of staves) {
    expect(drawing.box.left + x).toBeGreaterThanOrEqual(box.left - 0.01);
    expect(drawing.box.right + x).toBeLessThanOrEqual(box.right + 0.01);
    expect(drawing.box.top).toBeGreaterThanOrEqual(box.top - 0.01);
    expect(drawing.box.bottom).toBeLessThanOrEqual(box.bottom + 0.01);
  }
});
