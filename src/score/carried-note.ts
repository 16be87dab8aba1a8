import type { ChanterNote } from "../pipes/chanter-note.ts";
import type { PipeBar } from "./bar.ts";

/** The note that sounds at the end of a bar, given the one that sounded into it: the chanter goes on until it is cut off. Null: it is silent. */
export function carriedThrough(bar: PipeBar, into: ChanterNote | null): ChanterNote | null {
  const last = bar.events.findLast((event) => event.kind === "note");
  if (last?.kind !== "note") return into;
  return last.cutOff ? null : last.note;
}

/** The note that sounds from the bar before into the bar at an index, or null where the chanter is silent. */
export function carriedInto(bars: readonly PipeBar[], index: number): ChanterNote | null {
  for (let before = index - 1; before >= 0; before -= 1) {
    const last = bars[before]?.events.findLast((event) => event.kind === "note");
    if (last?.kind === "note") return last.cutOff ? null : last.note;
  }
  return null;
}
