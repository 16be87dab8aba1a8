import type { Moment } from "../../src/score/address.ts";
import type { Frame } from "../../src/score/frame.ts";
import { beatsOf, meterOffset } from "../../src/score/meter.ts";
import type { Ticks } from "../../src/units/ticks.ts";

/** The beat a moment lies in, for those who want nothing to glide: the line then goes from beat to beat. */
export function momentOnBeat(frame: Frame, { bar, at }: Moment): Moment {
  const offset = meterOffset(frame);
  let start = 0;
  for (const length of beatsOf(frame.meter)) {
    if (at + offset < start + length) break;
    start += length;
  }
  return { bar, at: Math.max(0, start - offset) as Ticks };
}
