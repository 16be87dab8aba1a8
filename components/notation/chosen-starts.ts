import type { Selection } from "../../src/editing/selection.ts";
import { heldTogether } from "../../src/engraving/note-steps.ts";
import { timeOf } from "../../src/score/bar-starts.ts";
import { eventsOf } from "../../src/score/doubling.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { Line, Score } from "../../src/score/score.ts";
import type { Ticks } from "../../src/units/ticks.ts";

/** Where in each bar the chosen events of a part begin. */
export type ChosenStarts = (bar: number) => ReadonlySet<Ticks>;

const NONE: ReadonlySet<Ticks> = new Set();

/**
 * Which events of a part are shown as chosen: those of the line the choice is on, a note with all it is tied to; and in the bars in which
 * another player doubles that line, the same moments.
 */
export function chosenStarts(score: Score, line: Line, selection: Selection): ChosenStarts {
  const follows = (bar: number, id: LineId): boolean => {
    const own = line.kind === "concert" ? line.bars[bar] : undefined;
    return id === line.id || (own?.kind === "doubling" && own.of === id);
  };
  if (selection.kind === "note") {
    const chain = heldTogether(score, line, selection.at);
    return (bar) => (follows(bar, selection.at.line) ? new Set(chain.filter((one) => one.bar === bar).map(({ at }) => at)) : NONE);
  }
  if (selection.kind === "nothing") return () => NONE;
  const [from, to] = [timeOf(score.frames, selection.from), timeOf(score.frames, selection.to)];
  return (bar) => {
    if (!follows(bar, selection.line)) return NONE;
    const start = timeOf(score.frames, { bar, at: 0 as Ticks });
    const inside = placedEvents({ events: eventsOf(score, line, bar) }).filter(({ at }) => start + at >= from && start + at < to);
    return new Set(inside.map(({ at }) => at));
  };
}
