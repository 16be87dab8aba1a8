import type { PipeLine } from "../score/score.ts";

/**
 * Whether the bag goes up in a bar: the drones are struck in a bar before the chanter (common practice). After a single bar of silence it is
 * still up.
 */
export function isBagUp({ bars, setup }: PipeLine, bar: number): boolean {
  const silent = (index: number) => bars[index]?.events.every(({ kind }) => kind === "rest") ?? false;
  if (setup.canRest || !silent(bar) || (bar > 0 && !silent(bar - 1))) return false;
  const entry = bars[bar + 1]?.events.find(({ kind }) => kind === "note");
  return entry?.kind === "note" && entry.strikeIn;
}
