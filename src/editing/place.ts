import type { Syllable, Tuplet } from "../score/bar.ts";
import { scoreTicks } from "../score/bar-starts.ts";
import type { Content } from "../score/edit.ts";
import type { LineNote } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import type { Score } from "../score/score.ts";
import { done, type Outcome } from "../units/outcome.ts";
import { around, joined, marked } from "./chanter-marks.ts";
import { noteOf, suits } from "./events-made.ts";
import { eventAtTime, isNote, lineIn } from "./line-time.ts";
import { overwritten } from "./overwrite.ts";
import { NO_ROOM, OTHER_KIND, TOO_SHORT } from "./refusals.ts";
import { withTupletWindow } from "./tuplet-window.ts";

/** Puts a note down; it takes over the words of a note that began in its time. */
export function place(score: Score, id: LineId, from: number, length: number, tuplet: Tuplet, content: Content): Outcome<Score> {
  if (!suits(lineIn(score, id), content)) return OTHER_KIND;
  return putDown(score, id, from, noteOf(content, length, tuplet, []));
}

/** Puts a whole note down, with whatever it brings; if it brings no words it takes over those of a note that began in its time. */
export function putDown(score: Score, id: LineId, from: number, note: LineNote): Outcome<Score> {
  const to = from + note.ticks;
  if (!(note.ticks > 0)) return TOO_SHORT;
  if (to > scoreTicks(score.frames)) return NO_ROOM;
  const line = lineIn(score, id);
  const stand = around(score, line, from, to);
  const syllables = note.syllables.length > 0 ? note.syllables : wordsBegunIn(score, id, from, to);
  const roomy = note.tuplet === null ? done(score) : withTupletWindow(score, id, from, note.ticks, note.tuplet);
  if (!roomy.ok) return roomy;
  const laid = overwritten(roomy.value, id, from, to, [marked({ ...note, syllables }, stand)]);
  return laid.ok ? done(joined(laid.value, id, from, to)) : laid;
}

/** The words of the first note that has any and begins in a stretch. */
function wordsBegunIn(score: Score, id: LineId, from: number, to: number): readonly Syllable[] {
  const line = lineIn(score, id);
  let time = from;
  while (time < to) {
    const one = eventAtTime(score, line, time);
    if (one === null) return [];
    if (isNote(one) && one.from >= from && one.event.syllables.length > 0) return one.event.syllables;
    time = one.to;
  }
  return [];
}
