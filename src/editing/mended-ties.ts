import { eventsOf } from "../score/doubling.ts";
import { type LineEvent, soundAlike } from "../score/like-events.ts";
import type { ConcertLine, Line, Score } from "../score/score.ts";
import { type AnyBar, withEvents } from "./with-bars.ts";

/**
 * The second score with the ties of other players' bars undone where a bar beside them changed hands (doubled or his own) and the tie now leads to
 * another note: a doubled bar may be tied into the next, which its player does not double.
 */
export function tiesMended(before: Score, after: Score): Score {
  let mended = after;
  for (const line of after.lines) {
    if (line.kind === "pipes") continue;
    const old = before.lines.find((one) => one.id === line.id);
    if (old === line) continue;
    const loose = looseEnds(after, line, old);
    if (loose.size > 0) mended = withEvents(mended, line.id, loose);
  }
  return mended;
}

/** The bars that have to change, with their events mended. */
function looseEnds(score: Score, line: ConcertLine, old: Line | undefined): ReadonlyMap<number, readonly LineEvent[]> {
  const found = new Map<number, readonly LineEvent[]>();
  const known: readonly AnyBar[] = old?.bars ?? [];
  line.bars.forEach((bar, index) => {
    const settled = bar === known[index] && line.bars[index + 1] === known[index + 1];
    if (settled || bar.kind !== "own") return;
    const last = bar.events.at(-1);
    if (last?.kind !== "note" || !last.tied) return;
    const next = eventsOf(score, line, index + 1)[0];
    if (next?.kind !== "note" || !soundAlike(last, next)) found.set(index, [...bar.events.slice(0, -1), { ...last, tied: false }]);
  });
  return found;
}
