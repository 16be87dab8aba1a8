import type { Edit } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";

/** A score that is looked at and heard, but not kept yet: nothing of it is saved, and leaving it leaves no trace. */
export interface Proposal {
  readonly score: Score;
  /** What it does, as it follows "Undo": `grace the line as a march`. */
  readonly label: string;
  /** What leads to it from the score that is kept; null where no edits do. */
  readonly edits: readonly Edit[] | null;
}
