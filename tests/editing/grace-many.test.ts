import fc from "fast-check";
import { expect, test } from "vitest";
import { applyEdit, applyEdits } from "../../src/editing/apply-edit.ts";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import type { Edit } from "../../src/score/edit.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { Score } from "../../src/score/score.ts";
import { done, type Outcome } from "../../src/units/outcome.ts";
import { at, pipeSketch } from "../support/pipe-sketch.ts";
import { Draws, draws, scoreFrom } from "../support/random-music.ts";

function oneByOne(score: Score, edits: readonly Edit[]): Outcome<Score> {
  let current = score;
  for (const edit of edits) {
    const outcome = applyEdit(current, edit);
    if (!outcome.ok) return outcome;
    current = outcome.value;
  }
  return done(current);
}

/** Gracenotes for some of a score's notes, for a rest or outside the score now and then, and a title in between. */
function gracingFrom(score: Score, numbers: readonly number[]): readonly Edit[] {
  const draw = new Draws(numbers);
  const edits: Edit[] = [];
  for (const line of score.lines) {
    if (line.kind !== "pipes") continue;
    for (const [bar, events] of line.bars.entries()) {
      for (const { at: begins, event } of placedEvents(events)) {
        if (event.kind === "rest" && !draw.chance(3)) continue;
        if (draw.chance(30)) continue;
        const gracenotes = Array.from({ length: draw.below(4) }, () => draw.from(NINE_NOTES));
        edits.push({ kind: "gracenotes", at: { line: line.id, bar: draw.chance(1) ? 99 : bar, at: begins }, gracenotes });
        if (draw.chance(5)) edits.push({ kind: "title", title: `Verse ${bar}` });
      }
    }
  }
  return edits;
}

test("many notes given gracenotes at once come out as one after the other, refusals too", () => {
  let refusals = 0;
  fc.assert(
    fc.property(draws, draws, (music, hand) => {
      const score = scoreFrom(music);
      const edits = gracingFrom(score, hand);
      const outcome = applyEdits(score, edits);
      expect(outcome).toEqual(oneByOne(score, edits));
      if (!outcome.ok) refusals += 1;
    }),
    { seed: 5, numRuns: 400 },
  );
  expect(refusals).toBeGreaterThan(5);
});

test("a bar no note of which changes stays the very bar, and the same gracenotes twice make the same one", () => {
  const score = pipeSketch("{g}B2! c2 d2 e2 | e2 d2 c2 B2");
  const gracing: readonly Edit[] = [
    { kind: "gracenotes", at: at(0, 0), gracenotes: ["high-g"] },
    { kind: "gracenotes", at: at(1, 2), gracenotes: ["high-g"] },
    { kind: "gracenotes", at: at(1, 4), gracenotes: ["d"] },
  ];
  const [once, again] = [applyEdits(score, gracing), applyEdits({ ...score, title: "Another" }, gracing)];
  if (!once.ok || !again.ok) throw new Error("refused");
  const bars = (of: Score) => pipeLineOf(of, "pipes")?.bars ?? [];
  expect(bars(once.value)[0]).toBe(bars(score)[0]);
  expect(bars(once.value)[1]).not.toBe(bars(score)[1]);
  expect(bars(again.value)[1]).toBe(bars(once.value)[1]);
});
