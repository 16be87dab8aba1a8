import type { PlainNote } from "../pipes/chanter-note.ts";
import { placementOf } from "../pipes/embellishments.ts";
import { GRACENOTE_SECONDS } from "../pipes/gracenote-seconds.ts";
import { type Seconds, seconds } from "../units/seconds.ts";

/**
 * Which note gives its time to gracenotes. `on-beat`: they begin where their own note is written, which starts that much later.
 * `before-beat`: they end where it is written, and the note before is that much shorter.
 */
export type GracenotePlacement = "on-beat" | "before-beat";

/** How gracenotes take their time. */
export interface GracenoteTiming {
  /** How long one gracenote lasts where there is room. */
  readonly each: Seconds;
  /** Who gives the time, for a group of gracenotes in the order they are played. Print disagrees, so it is asked for every group. */
  readonly placementOf: (gracenotes: readonly PlainNote[]) => GracenotePlacement;
}

/**
 * 40 ms each, placed as the table of embellishments says: a doubling on the beat, a grip before it.
 * *Source:* the length is from memory, no measured ones are published that we know; whether a group comes on or before the beat is disputed
 * in print.
 */
export const USUAL_GRACENOTES: GracenoteTiming = { each: GRACENOTE_SECONDS, placementOf };

/** The most that gracenotes take from a note. A setting of ours: the note must stay longer than what adorns it. */
const LARGEST_SHARE = 0.5;

/** How long each gracenote of a group lasts when a note of `room` seconds gives its time: shorter than usual where the note is short. */
export function gracenoteLength(count: number, room: number, timing: GracenoteTiming): Seconds {
  if (count === 0) return seconds(0);
  return Math.min(timing.each, (room * LARGEST_SHARE) / count) as Seconds;
}
