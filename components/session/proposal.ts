import type { Edit } from "../../src/score/edit.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";

/** A score that is looked at and heard, but not kept yet: nothing of it is saved, and leaving it leaves no trace. */
export interface Proposal {
  readonly score: Score;
  /** What it does, as it follows "Undo": `grace the line as a march`. */
  readonly label: string;
  /** What leads to it from the score that is kept; null where no edits do. */
  readonly edits: readonly Edit[] | null;
}

/** Where on one line something is proposed: in each bar, by its index, where the notes begin. */
export type ProposedPlaces = ReadonlyMap<number, ReadonlySet<number>>;

const known = new WeakMap<Proposal, Map<LineId, ProposedPlaces>>();

/** The notes of a line whose gracenotes or ties a proposal changes; null where it changes none. The same object for the same proposal. */
export function proposedPlaces(proposal: Proposal | null, line: LineId): ProposedPlaces | null {
  if (proposal === null) return null;
  const lines = known.get(proposal) ?? placesByLine(proposal.edits ?? []);
  known.set(proposal, lines);
  return lines.get(line) ?? null;
}

function placesByLine(edits: readonly Edit[]): Map<LineId, ProposedPlaces> {
  const lines = new Map<LineId, Map<number, Set<number>>>();
  for (const edit of edits) {
    if (edit.kind !== "gracenotes" && edit.kind !== "tie") continue;
    const bars = lines.get(edit.at.line) ?? new Map<number, Set<number>>();
    lines.set(edit.at.line, bars);
    bars.set(edit.at.bar, (bars.get(edit.at.bar) ?? new Set()).add(edit.at.at));
  }
  return lines;
}
