import { barStarts } from "../score/bar-starts.ts";
import type { LineEvent } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import type { Score } from "../score/score.ts";
import { done, type Outcome } from "../units/outcome.ts";
import { lineIn, timedEvents } from "./line-time.ts";
import { pieceOf } from "./pieces.ts";
import { NO_SUCH_BAR } from "./refusals.ts";
import { withEvents } from "./with-bars.ts";

/** Cuts off what runs over the end of a bar that is longer than its frame. */
export function cutToFrame(score: Score, id: LineId, bar: number): Outcome<Score> {
  const end = barStarts(score.frames)[bar + 1] ?? 0;
  const events = timedEvents(score, lineIn(score, id), bar);
  if (!events.some((one) => one.to > end)) return NO_SUCH_BAR;
  const kept = events
    .filter((one) => one.from < end)
    .map((one): LineEvent => (one.to > end ? pieceOf(one.event, end - one.from, one.event.tuplet, 0, 1) : one.event));
  return done(withEvents(score, id, new Map([[bar, kept]])));
}
