import type { Moment } from "../score/address.ts";
import { timeOf } from "../score/bar-starts.ts";
import type { Score } from "../score/score.ts";

/** A stretch of the score as written: from its first moment up to, not including, the second. */
export interface Stretch {
  readonly from: Moment;
  readonly to: Moment;
}

/** Whether a moment lies in a stretch; in no stretch, which is everywhere, it does. */
export function isInside({ frames }: Pick<Score, "frames">, moment: Moment, stretch: Stretch | null): boolean {
  if (stretch === null) return true;
  const time = timeOf(frames, moment);
  return timeOf(frames, stretch.from) <= time && time < timeOf(frames, stretch.to);
}
