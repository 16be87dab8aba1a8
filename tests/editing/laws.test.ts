import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdit } from "../../src/editing/apply-edit.ts";
import { historyOf, recorded, undone } from "../../src/editing/history.ts";
import { NOTHING } from "../../src/editing/selection.ts";
import { check } from "../../src/score/check.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { editFrom } from "../support/random-edits.ts";
import { draws, scoreFrom } from "../support/random-music.ts";
import { caseAsCode } from "../support/score-as-code.ts";
import { deepFrozen, expectRoundTrip, expectShared, expectSound, REMOVING, wordsOf } from "../support/score-laws.ts";

const SEED = 20261125;

/** A score and an edit of it; a failing one is printed as code. */
interface Case {
  readonly score: Score;
  readonly edit: Edit;
}

const oneCase: fc.Arbitrary<Case> = fc.tuple(draws, draws).map(([music, hand]) => {
  const score = deepFrozen(scoreFrom(music));
  const edit = deepFrozen(editFrom(score, hand));
  return { score, edit, [fc.toStringMethod]: () => caseAsCode(score, [edit]) };
});

describe("any edit of any score", () => {
  it(
    "leaves a sound score, its input untouched, what did not change shared, and every sung word in place",
    () => {
      let applied = 0;
      fc.assert(
        fc.property(oneCase, ({ score, edit }) => {
          const outcome = applyEdit(score, edit);
          if (!outcome.ok) {
            expect(outcome.reason).toMatch(/^[A-Z“].*\.$/);
            return;
          }
          applied += 1;
          const after = deepFrozen(outcome.value);
          expect(after.revision).toBe(score.revision + 1);
          expectSound(after);
          expectShared(score, after, edit);
          expectRoundTrip(after);
          if (!REMOVING.includes(edit.kind)) expect(wordsOf(after)).toEqual(expect.arrayContaining([...wordsOf(score)]));
        }),
        { numRuns: cases(2_000, 100_000), seed: SEED },
      );
      // A law that is never put to the test holds of anything; about half of the random edits can be done.
      expect(applied).toBeGreaterThan(cases(2_000, 100_000) * 0.4);
    },
    PATIENCE,
  );

  it(
    "is undone to the identical score, step by step, and done again",
    () => {
      fc.assert(
        fc.property(draws, fc.array(draws, { minLength: 1, maxLength: 6 }), (music, hands) => {
          const states = [scoreFrom(music)];
          let history = historyOf(states[0] as Score);
          for (const hand of hands) {
            const outcome = applyEdit(history.present.score, editFrom(history.present.score, hand));
            if (!outcome.ok) continue;
            history = recorded(history, outcome.value, { label: "edit", selection: NOTHING });
            states.push(history.present.score);
          }
          for (const state of states.toReversed()) {
            expect(history.present.score).toBe(state);
            history = undone(history);
          }
        }),
        { numRuns: cases(300, 5_000), seed: SEED },
      );
    },
    PATIENCE,
  );

  it(
    "every cure on offer can be taken, and what it cures is gone",
    () => {
      fc.assert(
        fc.property(
          draws.map((music) => {
            const score = deepFrozen(scoreFrom(music));
            return { score, [fc.toStringMethod]: () => caseAsCode(score, []) };
          }),
          ({ score }) => {
            for (const finding of check(score)) {
              for (const { label, edits } of finding.cures) {
                let current = score;
                for (const edit of edits) {
                  const outcome = applyEdit(current, edit);
                  // A cure that would take a sung word away is refused, and says so.
                  if (!outcome.ok && outcome.reason.includes("would lose its note")) return;
                  expect(outcome, `${finding.message} ${label}`).toMatchObject({ ok: true });
                  if (outcome.ok) current = outcome.value;
                }
                const still = check(current).filter((one) => one.kind === finding.kind && one.message === finding.message);
                expect(
                  still.map((one) => one.address),
                  `${finding.message} ${label}`,
                ).not.toContainEqual(finding.address);
              }
            }
          },
        ),
        { numRuns: cases(500, 10_000), seed: SEED },
      );
    },
    PATIENCE,
  );
});
