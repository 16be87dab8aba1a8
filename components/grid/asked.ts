import { editLabel } from "../../src/editing/edit-label.ts";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import type { Address } from "../../src/score/address.ts";
import { momentAt } from "../../src/score/bar-starts.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";

/** One thing the hand asks of the score: the edits, what undoing it is called, and what is chosen afterwards. */
export interface Asked {
  readonly edits: readonly Edit[];
  readonly label: string;
  readonly selection: Selection;
}

/** Asks for edits; the first one names the step, unless a label is given. */
export function asked(edits: readonly Edit[], selection: Selection = NOTHING, label?: string): Asked {
  const first = edits[0];
  return { edits, label: label ?? (first === undefined ? "" : editLabel(first)), selection };
}

/** A time from the start of the score as an address on a line. */
export function addressAt(score: Score, line: LineId, time: number): Address {
  return { line, ...momentAt(score.frames, time) };
}

/** The note that begins at a time, chosen. */
export function noteChosen(score: Score, line: LineId, time: number): Selection {
  return { kind: "note", at: addressAt(score, line, time) };
}

/** A stretch of time, chosen. */
export function stretchChosen(score: Score, line: LineId, from: number, to: number): Selection {
  return { kind: "stretch", line, from: momentAt(score.frames, from), to: momentAt(score.frames, to) };
}
