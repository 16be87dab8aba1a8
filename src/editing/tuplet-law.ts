import type { Score } from "../score/score.ts";
import { tupletGroups } from "../score/tuplet-groups.ts";
import { changedBars } from "./changed-bars.ts";
import type { AnyBar } from "./with-bars.ts";

/** Whether an edit left a triplet or duplet that fills no note value, where there was none. */
export function breaksTuplet(before: Score, after: Score): boolean {
  return changedBars(before, after).some(({ gone, added }) => brokenGroups(added) > brokenGroups(gone));
}

function brokenGroups(bars: readonly AnyBar[]): number {
  return bars.reduce((sum, bar) => sum + (bar.kind === "doubling" ? 0 : tupletGroups(bar).filter((group) => !group.complete).length), 0);
}
