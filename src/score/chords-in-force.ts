import type { Ticks } from "../units/ticks.ts";
import type { Frame } from "./frame.ts";
import { frameTicks } from "./meter.ts";

/** A stretch of a bar through which one chord holds. */
export interface ChordSpan {
  /** From the start of the bar. */
  readonly from: Ticks;
  readonly to: Ticks;
  readonly symbol: string;
  /** Whether the chord is struck here; false where it is held from a bar before. */
  readonly begins: boolean;
}

const heldOver = new WeakMap<readonly Frame[], readonly (string | null)[]>();

/** The chords that hold through a bar, in order; the first is the one before it where the bar begins without a chord of its own. */
export function chordSpans(frames: readonly Frame[], bar: number): readonly ChordSpan[] {
  const frame = frames[bar];
  if (frame === undefined) return [];
  const end = frameTicks(frame);
  const held = chordHeldInto(frames, bar);
  const own = frame.chords.filter(({ at }) => at < end);
  const marks: { readonly at: Ticks; readonly symbol: string; readonly begins: boolean }[] = own.map((chord) => ({
    ...chord,
    begins: true,
  }));
  if (held !== null && own[0]?.at !== 0) marks.unshift({ at: 0 as Ticks, symbol: held, begins: false });
  return marks.map(({ at, symbol, begins }, index) => ({ from: at, to: marks[index + 1]?.at ?? end, symbol, begins }));
}

/** The chord that was struck last before a bar, or null. */
export function chordHeldInto(frames: readonly Frame[], bar: number): string | null {
  let known = heldOver.get(frames);
  if (known === undefined) {
    let last: string | null = null;
    known = frames.map((frame) => {
      const before = last;
      last = frame.chords.at(-1)?.symbol ?? last;
      return before;
    });
    heldOver.set(frames, known);
  }
  return known[bar] ?? null;
}
