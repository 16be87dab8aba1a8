import type { Score } from "../score/score.ts";
import type { AnyBar } from "./with-bars.ts";

/** The bars by which one line of two scores differs. */
export interface ChangedBars {
  /** Only in the first score, in order. */
  readonly gone: readonly AnyBar[];
  /** Only in the second, in order. */
  readonly added: readonly AnyBar[];
}

/** What changed from one score to the next, for each line of the first that changed at all. Told by identity, so it costs next to nothing. */
export function changedBars(before: Score, after: Score): readonly ChangedBars[] {
  return before.lines.flatMap((line) => {
    const now = after.lines.find((one) => one.id === line.id);
    return now === line || now?.bars === line.bars ? [] : [differing(line.bars, now?.bars ?? [])];
  });
}

function differing(before: readonly AnyBar[], after: readonly AnyBar[]): ChangedBars {
  let front = 0;
  while (front < before.length && before[front] === after[front]) front += 1;
  let back = 0;
  while (back < Math.min(before.length, after.length) - front && before.at(-1 - back) === after.at(-1 - back)) back += 1;
  return { gone: before.slice(front, before.length - back), added: after.slice(front, after.length - back) };
}
