import { barStarts } from "../score/bar-starts.ts";
import { soundAlike } from "../score/like-events.ts";
import type { Score } from "../score/score.ts";
import { isCutOff, isStruckIn, patched, patchedNote } from "./chanter-marks.ts";
import { eventAtTime, isNote, lineIn, noteFrom } from "./line-time.ts";

/**
 * The score after bars came or went in front of the bar at an index: ties over that bar line that lead to another note now are undone, a note
 * that is now sounded into is no longer struck in, and a pipe line whose first note is another one now has that struck in.
 */
export function mendedAtSeam(score: Score, bar: number): Score {
  const time = barStarts(score.frames)[bar] ?? 0;
  let mended = score;
  for (const line of score.lines) {
    const left = eventAtTime(score, line, time - 1);
    const right = eventAtTime(score, line, time);
    if (left !== null && isNote(left) && left.event.tied && !(right !== null && isNote(right) && soundAlike(left.event, right.event))) {
      // A doubled bar follows its pipes, whose own tie is mended here.
      if (line.kind === "pipes" || line.bars[bar - 1]?.kind === "own") {
        mended = patchedNote(mended, line.id, left.from, (note) => ({ ...note, tied: false }));
      }
    }
    const struckAgain = right !== null && isStruckIn(right) && left !== null && isNote(left) && !isCutOff(left);
    if (struckAgain) mended = patched(mended, line.id, right.from, (note) => ({ ...note, strikeIn: false }));
    const first = line.kind === "pipes" ? noteFrom(mended, lineIn(mended, line.id), 0) : null;
    if (first !== null && first.from >= time) mended = patched(mended, line.id, first.from, (note) => ({ ...note, strikeIn: true }));
  }
  return mended;
}
