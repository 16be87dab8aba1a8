import { copyStretch } from "../../src/editing/clip.ts";
import { momentAt } from "../../src/score/bar-starts.ts";
import type { StretchClip } from "../../src/score/edit.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";

/** What was copied last, on whichever grid: it may be pasted into another sketch. */
let kept: StretchClip | null = null;

/** Copies a stretch of a line; times from the start of the score. */
export function copyTime(score: Score, line: LineId, from: number, to: number): void {
  kept = copyStretch(score, line, momentAt(score.frames, from), momentAt(score.frames, to));
}

/** What would be pasted, or null. */
export function copiedStretch(): StretchClip | null {
  return kept;
}
