import { scoreTicks } from "../score/bar-starts.ts";
import type { StretchClip } from "../score/edit.ts";
import { isPipeNote, type LineEvent } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import type { Score } from "../score/score.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { around, joined, parted } from "./chanter-marks.ts";
import { lineIn } from "./line-time.ts";
import { overwritten } from "./overwrite.ts";
import { NO_ROOM, OTHER_KIND } from "./refusals.ts";

/** Puts a copied stretch down over whatever was there, words and marks included. */
export function paste(score: Score, id: LineId, from: number, clip: StretchClip): Outcome<Score> {
  const line = lineIn(score, id);
  if (line.kind !== clip.kind) return OTHER_KIND;
  const length = clip.events.reduce((sum, event) => sum + event.ticks, 0);
  if (length === 0) return refused("Nothing was copied.");
  const to = from + length;
  if (to > scoreTicks(score.frames)) return NO_ROOM;
  const stand = around(score, line, from, to);
  const events: readonly LineEvent[] = clip.events;
  const first = events[0] as LineEvent;
  const last = events[events.length - 1] as LineEvent;
  const laid = overwritten(
    score,
    id,
    from,
    to,
    events.map((event) => {
      if (event.kind === "rest" || !isPipeNote(event)) return event;
      const begins = event === first ? stand.silentBefore && !stand.touchesBefore : event.strikeIn;
      return { ...event, strikeIn: begins, cutOff: event.cutOff || (event === last && stand.cutOffAfter) };
    }),
  );
  if (!laid.ok) return laid;
  let pasted = laid.value;
  if (first.kind === "rest") pasted = parted(pasted, id, from, from, { ...stand, cutOffAfter: false });
  if (last.kind === "rest") pasted = parted(pasted, id, to, to, { ...stand, silentBefore: false });
  return done(first.kind === "rest" ? pasted : joined(pasted, id, from, to));
}
