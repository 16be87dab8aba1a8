import { timeOf } from "../score/bar-starts.ts";
import type { Edit } from "../score/edit.ts";
import type { Score } from "../score/score.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { place } from "./place.ts";

/**
 * The score after an edit: it shares every frame and bar that was not touched, and its revision is one higher. A refusal is a sentence for the
 * reading line; the score is then as it was.
 */
export function applyEdit(score: Score, edit: Edit): Outcome<Score> {
  const changed = change(score, edit);
  return changed.ok ? done({ ...changed.value, revision: score.revision + 1 }) : changed;
}

/** The score after several edits in order, or the first refusal. */
export function applyEdits(score: Score, edits: readonly Edit[]): Outcome<Score> {
  let current = score;
  for (const edit of edits) {
    const applied = applyEdit(current, edit);
    if (!applied.ok) return applied;
    current = applied.value;
  }
  return done(current);
}

function change(score: Score, edit: Edit): Outcome<Score> {
  switch (edit.kind) {
    case "place":
      return place(score, edit.at.line, timeOf(score.frames, edit.at), edit.ticks, edit.tuplet, edit.content);
    default:
      return refused("That cannot be done yet.");
  }
}
