import fc from "fast-check";
import { expect, test } from "vitest";
import { noteChosen, stretchChosen } from "../../components/grid/asked.ts";
import { leadsFromBefore, traceOf } from "../../components/grid/bar-trace.ts";
import { heldNoteAt, notesIn } from "../../components/grid/chosen-notes.ts";
import { askedBy, type Gesture, type Hand } from "../../components/grid/gesture.ts";
import { GRID_STEPS } from "../../components/grid/grid-step.ts";
import { handWords } from "../../components/grid/hand-words.ts";
import { readingOf } from "../../components/grid/reading.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { scoreTicks } from "../../src/score/bar-starts.ts";
import { carriedInto, carriedThrough } from "../../src/score/carried-note.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import { lengthOf } from "../../src/score/placed-events.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { anyScore } from "../support/random-scores.ts";

/* Whatever the hand does on whatever score: what it asks for can be carried out, or is refused in a sentence. */

const anyStep = fc.constantFrom(...GRID_STEPS.map(({ step }) => step));
const anyRow = fc.constantFrom(...NINE_NOTES);
/** A place in the score as a share of its length. */
const anyShare = fc.double({ min: 0, max: 0.9999, noNaN: true });

function pipesOf(score: Score): PipeLine {
  const [line] = pipeLines(score);
  if (line === undefined) throw new RangeError("no pipes");
  return line;
}

const timeAt = (score: Score, share: number): number => Math.floor(share * scoreTicks(score.frames));

test(
  "every drag comes to edits that can be applied, or to a refusal in words",
  () => {
    fc.assert(
      fc.property(
        anyScore({ repeats: false }),
        fc.constantFrom("place", "move", "start", "end", "stretch" as const),
        fc.tuple(anyShare, anyRow),
        fc.tuple(anyShare, anyRow),
        anyStep,
        (score, kind, [from, fromRow], [to, toRow], step) => {
          const line = pipesOf(score).id;
          const pressed: Hand = { time: timeAt(score, from), note: fromRow };
          const held = heldNoteAt(score, line, pressed.time);
          if (held === null && kind !== "place" && kind !== "stretch") return;
          const gesture = { kind, pressed, held } as Gesture;
          const asked = askedBy(score, line, gesture, { time: timeAt(score, to), note: toRow }, step);
          if (asked === null) return;
          const outcome = applyEdits(score, asked.edits);
          if (outcome.ok) expect(scoreTicks(outcome.value.frames)).toBe(scoreTicks(score.frames));
          else expect(outcome.reason).toMatch(/^[A-Z“].*\.$/s);
          expect(asked.edits.length === 0 || asked.label !== "").toBe(true);
        },
      ),
      { seed: 41, numRuns: cases(400, 20_000) },
    );
  },
  PATIENCE,
);

test(
  "every word that is offered can be done, or is refused in words",
  () => {
    fc.assert(
      fc.property(anyScore({ repeats: false }), anyShare, anyShare, anyStep, (score, one, other, step) => {
        const line = pipesOf(score).id;
        const [from, to] = [timeAt(score, Math.min(one, other)), timeAt(score, Math.max(one, other)) + 1];
        for (const selection of [noteChosen(score, line, from), stretchChosen(score, line, from, to)]) {
          for (const { words, does } of handWords(score, line, selection, step) ?? []) {
            expect(words).not.toBe("");
            if (does.kind !== "ask" || does.asked === null) continue;
            const outcome = applyEdits(score, does.asked.edits);
            if (!outcome.ok) expect(outcome.reason).toMatch(/^[A-Z“].*\.$/s);
          }
        }
      }),
      { seed: 42, numRuns: cases(100, 5_000) },
    );
  },
  PATIENCE,
);

test("the trace never breaks: each stroke begins where the one before ended, was held through a rest, or the chanter was silent", () => {
  fc.assert(
    fc.property(anyScore({ repeats: false }), (score) => {
      const { bars } = pipesOf(score);
      bars.forEach((bar, index) => {
        const next = leadsFromBefore(bars[index + 1]);
        const { strokes, held, changes } = traceOf(bar, carriedInto(bars, index), next);
        const pieces = [...strokes, ...held].sort((one, other) => one.from - other.from);
        for (const [at, piece] of pieces.slice(1).entries()) expect(piece.from).toBeGreaterThanOrEqual(pieces[at]?.to ?? 0);
        expect(carriedThrough(bar, carriedInto(bars, index))).toBe(carriedInto(bars, index + 1));
        const begin = [...strokes, ...(next === null ? [] : [{ from: lengthOf(bar), note: next.note }])];
        for (const change of changes) expect(begin.some(({ from, note }) => from === change.at && note === change.to)).toBe(true);
      });
    }),
    { seed: 43, numRuns: cases(200, 5_000) },
  );
});

test("every group of gracenotes is drawn once, by its own bar or by the one before it", () => {
  let groups = 0;
  fc.assert(
    fc.property(anyScore({ repeats: false }), (score) => {
      const { bars } = pipesOf(score);
      const drawn = bars.flatMap((bar, index) =>
        traceOf(bar, carriedInto(bars, index), leadsFromBefore(bars[index + 1])).changes.filter(({ gracenotes }) => gracenotes.length > 0),
      );
      const written = bars.flatMap(({ events }) => events.filter((event) => event.kind === "note" && event.gracenotes.length > 0));
      expect(drawn).toHaveLength(written.length);
      groups += written.length;
    }),
    { seed: 44, numRuns: cases(200, 5_000) },
  );
  expect(groups).toBeGreaterThan(100);
});

test("every note can be read out", () => {
  fc.assert(
    fc.property(anyScore({ repeats: false }), (score) => {
      const line = pipesOf(score);
      for (const note of notesIn(score, line.id, 0, scoreTicks(score.frames))) {
        const reading = readingOf(score, line, noteChosen(score, line.id, note.from));
        expect(reading.kind).toBe("note");
        expect(JSON.stringify(reading)).not.toMatch(/undefined|NaN|null/);
      }
    }),
    { seed: 44, numRuns: cases(100, 2_000) },
  );
});
