import type { Moment } from "../score/address.ts";
import { barNumber } from "../score/bar-number.ts";
import type { Frame } from "../score/frame.ts";
import { beatsOf, meterOffset } from "../score/meter.ts";
import type { Score } from "../score/score.ts";

/** The number of the beat that a time of a bar falls in, counted from 1; a pickup has the last beats of its bar. */
export function beatAt(frame: Frame, at: number): number {
  let left = at + meterOffset(frame);
  const beats = beatsOf(frame.meter);
  const index = beats.findIndex((length) => {
    left -= length;
    return left < 0;
  });
  return index === -1 ? beats.length : index + 1;
}

/** A moment as it is said: `bar 3, beat 2`. */
export function momentInWords(score: Score, { bar, at }: Moment): string {
  const frame = score.frames[bar];
  return `bar ${barNumber(score, bar)}, beat ${frame === undefined ? 1 : beatAt(frame, at)}`;
}
