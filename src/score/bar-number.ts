import { isShort } from "./meter.ts";
import type { Score } from "./score.ts";

/** Whether the score begins with a pickup. */
export function hasPickup(score: Score): boolean {
  const first = score.frames[0];
  return first !== undefined && isShort(first);
}

/** The number a reader is shown for the bar at an index: counted from 1, or from 0 where the score begins with a pickup. */
export function barNumber(score: Score, index: number): number {
  return hasPickup(score) ? index : index + 1;
}
