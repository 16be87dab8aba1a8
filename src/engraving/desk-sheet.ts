import type { Line, Score } from "../score/score.ts";
import { STAFF_HEIGHT } from "./drawing.ts";
import { deskSyllableBaseline, LEAST_ROOM, staffReach, syllableReach } from "./staff-reach.ts";

/** The paper under a part on the desk, in desk pixels: one height for all its bars, so that nothing moves while they are read. */
export interface DeskSheet {
  /** From its top edge to the top line of the staff. */
  readonly staffTop: number;
  readonly height: number;
  /** Where the syllables stand, under the top line of the staff. */
  readonly syllableBaseline: number;
}

/** Between ink and the edge of the paper. */
const EDGE = 2;

/** The sheet of a part, 98 px high unless its ink needs more. */
export function deskSheet(score: Score, line: Line): DeskSheet {
  const reach = staffReach(score, line);
  const staffTop = Math.ceil(Math.max(LEAST_ROOM, reach.over) + EDGE);
  const below = Math.ceil(Math.max(LEAST_ROOM, reach.under + EDGE, syllableReach(reach) + EDGE));
  return { staffTop, height: staffTop + STAFF_HEIGHT + below, syllableBaseline: deskSyllableBaseline(reach) };
}
