import { describe, expect, it } from "vitest";
import { applyEdit, applyEdits } from "../../src/editing/apply-edit.ts";
import { copyBars } from "../../src/editing/clip.ts";
import { editLabel } from "../../src/editing/edit-label.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

const tune = { title: "Crane Lullaby", tuneType: "Slow air", composer: "Mairi Quern" };

function applied(score: Score, ...edits: readonly Edit[]): Score {
  const outcome = applyEdits(score, edits);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

function reason(score: Score, edit: Edit): string {
  const outcome = applyEdit(score, edit);
  return outcome.ok ? "It was done." : outcome.reason;
}

/** The title that begins with each bar, a dash where none does. */
const titles = (score: Score): string => score.frames.map((frame) => frame.tune?.title ?? "-").join(" | ");

describe("a tune of a medley", () => {
  const medley = applied(pipeSketch("d8! | e8 | f8 | e8"), { kind: "tune", bar: 1, tune });

  it("begins at a bar, and taken away the tune before goes on", () => {
    expect(titles(medley)).toBe("- | Crane Lullaby | - | -");
    expect(titles(applied(medley, { kind: "tune", bar: 1, tune: null }))).toBe("- | - | - | -");
    expect(editLabel({ kind: "tune", bar: 1, tune })).toBe("change the tune");
  });

  it("moves to the next bar when its own is taken out, unless a tune begins there", () => {
    const first: Edit = { kind: "remove-bars", range: { first: 1, last: 1 } };
    expect(titles(applied(medley, first))).toBe("- | Crane Lullaby | -");
    const two = applied(medley, { kind: "tune", bar: 2, tune: { ...tune, title: "Kettle and Crane" } });
    expect(titles(applied(two, first))).toBe("- | Kettle and Crane | -");
  });

  it("is copied with its bar, and not taken over by empty bars put in beside it", () => {
    const clip = copyBars(medley, { first: 1, last: 2 });
    expect(titles(applied(medley, { kind: "insert-clip", before: 4, clip }))).toBe("- | Crane Lullaby | - | - | Crane Lullaby | -");
    expect(titles(applied(medley, { kind: "insert-bars", before: 2, count: 1 }))).toBe("- | Crane Lullaby | - | - | -");
  });

  it("stays where it is in the music when the meter changes, which is refused when it would begin inside a bar", () => {
    const six = applied(pipeSketch("d8! | e8 | f8 | e8 | f8 | e8"), { kind: "tune", bar: 3, tune });
    const meter = { beats: 3, unit: 4 } as const;
    expect(titles(applied(six, { kind: "meter", range: { first: 0, last: 5 }, meter }))).toBe("- | - | - | - | Crane Lullaby | - | - | -");
    expect(reason(medley, { kind: "meter", range: { first: 0, last: 3 }, meter })).toMatch(/would begin inside a bar/);
  });

  it("needs a title and a bar of the score", () => {
    expect(reason(medley, { kind: "tune", bar: 1, tune: { ...tune, title: " " } })).toBe("A tune needs a title.");
    expect(reason(medley, { kind: "tune", bar: 9, tune })).toBe("There is no bar there.");
  });
});
