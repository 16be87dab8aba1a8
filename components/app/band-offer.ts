import { editLabel } from "../../src/editing/edit-label.ts";
import { type BandMove, bandMovedBack, bandMoveInWords } from "../../src/editing/edits-for-setup.ts";
import { shownKey } from "../../src/pitch/key-signature.ts";
import type { Score } from "../../src/score/score.ts";
import type { Session } from "../session/session.ts";
import type { SketchDesk } from "./sketch-desk.ts";

/** Tells that the band moved along with another chanter, and offers to keep it where it was in the score before. */
export function tellOfBandMove(desk: SketchDesk, session: Session, move: BandMove, before: Score): void {
  const after = session.score;
  const first = before.frames[0];
  if (first === undefined) throw new RangeError("A sketch has at least one bar.");
  const key = shownKey(first.key);
  const act = (): void => {
    // Once the sketch is another, taking the move back could put the band out of tune with the chanter.
    const kept = session.score === after && session.apply([bandMovedBack(move)], editLabel(move)).ok;
    desk.tell(kept ? `The band stays in ${key}.` : "The sketch has changed since then. Undo takes its steps back.");
  };
  desk.tell(bandMoveInWords(move, after), { label: `Keep the band in ${key}`, act });
}
