import type { Ticks } from "../units/ticks.ts";
import type { Moment } from "./address.ts";
import type { Frame } from "./frame.ts";
import { beatsOf, meterOffset } from "./meter.ts";

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
