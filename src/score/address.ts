import type { Ticks } from "../units/ticks.ts";
import type { LineId } from "./line-id.ts";

/** A moment in the written score, whoever plays. */
export interface Moment {
  /** Index into the frames; the first is 0. What the reader is shown is `barNumber`. */
  readonly bar: number;
  /** From the start of the bar. */
  readonly at: Ticks;
}

/**
 * A place in a score: a moment of a bar of a line. It names the event that begins at or sounds through that moment.
 * By time and not by count, so that it survives edits before it.
 */
export interface Address extends Moment {
  readonly line: LineId;
}
