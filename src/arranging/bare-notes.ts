import type { LineId } from "../score/line-id.ts";
import { pipeLineOf } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import { graceSites, isLike } from "./grace-sites.ts";
import type { GracenotesEdit } from "./gracing.ts";
import { isInside, type Stretch } from "./stretch.ts";

/** What taking the gracenotes away comes to. */
export interface Baring {
  /** In written order, to be applied as one step. */
  readonly edits: readonly GracenotesEdit[];
  /** How many like notes nothing divides any more. */
  readonly joined: number;
}

/** What taking the gracenotes of a line away would do; nothing where there is no such pipe line. */
export function bareNotes(score: Score, id: LineId, stretch: Stretch | null): Baring {
  const line = pipeLineOf(score, id);
  const sites = line === null ? [] : graceSites(score, line);
  const graced = sites.filter(({ note, address }) => note.gracenotes.length > 0 && isInside(score, address, stretch));
  return {
    edits: graced.map(({ address }) => ({ kind: "gracenotes", at: address, gracenotes: [] })),
    joined: graced.filter(isLike).length,
  };
}
