import type { LineId } from "../score/line-id.ts";
import { pipeLineOf } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import { graceSites } from "./grace-sites.ts";
import type { GracenotesEdit } from "./gracing.ts";
import { isInside, type Stretch } from "./stretch.ts";

/** The edits that take the gracenotes away from a line, in written order, to be applied as one step; none where there is no such pipe line. */
export function bareNotes(score: Score, id: LineId, stretch: Stretch | null): readonly GracenotesEdit[] {
  const line = pipeLineOf(score, id);
  if (line === null) return [];
  return graceSites(score, line)
    .filter(({ note, address }) => note.gracenotes.length > 0 && isInside(score, address, stretch))
    .map(({ address }) => ({ kind: "gracenotes", at: address, gracenotes: [] }));
}
