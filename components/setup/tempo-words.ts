import type { Tempo } from "../../src/score/frame.ts";
import { TICKS_PER_QUARTER, ticks } from "../../src/units/ticks.ts";

/** The note values that can be counted, longest first, with the words for them. */
export const COUNTED_VALUES = [
  { beat: ticks(TICKS_PER_QUARTER * 3), words: "dotted halves" },
  { beat: ticks(TICKS_PER_QUARTER * 2), words: "halves" },
  { beat: ticks(TICKS_PER_QUARTER * 1.5), words: "dotted quarters" },
  { beat: TICKS_PER_QUARTER, words: "quarters" },
  { beat: ticks(TICKS_PER_QUARTER * 0.75), words: "dotted eighths" },
  { beat: ticks(TICKS_PER_QUARTER / 2), words: "eighths" },
] as const;

/** `104 to the minute`; the counted value is named where it is not the quarter: `72 dotted quarters to the minute`. */
export function tempoInWords(tempo: Tempo): string {
  const counted = COUNTED_VALUES.find((value) => value.beat === tempo.beat);
  const perMinute = String(Math.round(tempo.perMinute * 10) / 10);
  if (counted === undefined || tempo.beat === TICKS_PER_QUARTER) return `${perMinute} to the minute`;
  return `${perMinute} ${counted.words} to the minute`;
}
