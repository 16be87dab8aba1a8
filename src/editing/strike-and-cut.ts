import type { LineId } from "../score/line-id.ts";
import type { Score } from "../score/score.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { isCutOff, patched } from "./chanter-marks.ts";
import { chainAt, lineIn, noteBefore, noteFrom } from "./line-time.ts";
import { NO_NOTE, PIPES_ONLY } from "./refusals.ts";

/** Lets the chanter start with a note, and stop before the silence that leads to it; or takes both marks away. The first note keeps its own. */
export function strikeIn(score: Score, id: LineId, time: number, on: boolean): Outcome<Score> {
  const line = lineIn(score, id);
  if (line.kind !== "pipes") return PIPES_ONLY;
  const chain = chainAt(score, line, time);
  if (chain === null) return NO_NOTE;
  const before = noteBefore(score, line, chain.from);
  if (!on && before === null) return refused("The first note has to be struck in.");
  if (on && before !== null && before.to === chain.from && !isCutOff(before)) {
    return refused("The chanter is already sounding here. Cut it off before you strike it in again.");
  }
  const struck = patched(score, id, chain.from, (note) => ({ ...note, strikeIn: on }));
  return done(before === null ? struck : patched(struck, id, before.from, (note) => ({ ...note, cutOff: on })));
}

/** Lets the chanter stop at the end of a note, and start again with the next; or takes both marks away. */
export function cutOff(score: Score, id: LineId, time: number, on: boolean): Outcome<Score> {
  const line = lineIn(score, id);
  if (line.kind !== "pipes") return PIPES_ONLY;
  const chain = chainAt(score, line, time);
  if (chain === null) return NO_NOTE;
  const next = noteFrom(score, line, chain.to);
  const cut = patched(score, id, chain.last.from, (note) => ({ ...note, cutOff: on }));
  return done(next === null ? cut : patched(cut, id, next.from, (note) => ({ ...note, strikeIn: on })));
}
