import type { Frame } from "../score/frame.ts";
import { beatsOf, meterOffset } from "../score/meter.ts";

/** Where in its bar a note begins: on the first beat, on another, or between beats. */
export type SitePlace = "first-beat" | "beat" | "between";

/** Where in a bar a moment lies, and how long the beat is that it falls in, ticks. */
export function beatAround(frame: Frame, at: number): { readonly place: SitePlace; readonly beat: number } {
  const inMeter = meterOffset(frame) + at;
  let start = 0;
  for (const beat of beatsOf(frame.meter)) {
    if (start === inMeter) return { place: start === 0 ? "first-beat" : "beat", beat };
    start += beat;
    if (inMeter < start) return { place: "between", beat };
  }
  return { place: "between", beat: Number.POSITIVE_INFINITY };
}

/** Whether a part ends with a bar: at a repeat's end, before a repeat, a section or a tune begins, or at the end of everything. */
export function endsPart(frames: readonly Frame[], bar: number): boolean {
  const next = frames[bar + 1];
  return frames[bar]?.repeatEnd === true || next === undefined || next.repeatStart || next.section !== null || next.tune !== null;
}
