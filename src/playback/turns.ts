import type { ChanterSpan } from "./chanter-spans.ts";

/*
 * How far an oscillator has turned. A long sound is rendered in pieces, and in each piece oscillators begin anew; begun where the last piece left
 * them, the pieces join without a seam. Frequencies are rounded as an audio parameter holds them, in 32 bits: over minutes the difference is heard.
 */

/** Turns (periods, their fraction kept) that a chanter has made by a sample, from its first step on; its frequency changes on whole samples. */
export function chanterTurns(spans: readonly ChanterSpan[], sample: number, sampleRate: number): number {
  let turns = 0;
  let since = 0;
  let hertz = 0;
  for (const { steps } of spans) {
    for (const step of steps) {
      const at = Math.round(step.at * sampleRate);
      if (at >= sample) return fraction(turns + (hertz * (sample - since)) / sampleRate);
      turns = fraction(turns + (hertz * (at - since)) / sampleRate);
      since = at;
      hertz = Math.fround(step.hertz);
    }
  }
  return fraction(turns + (hertz * (sample - since)) / sampleRate);
}

/** Turns that a steady sound has made by a sample, begun at the first. */
export function steadyTurns(hertz: number, sample: number, sampleRate: number): number {
  return fraction((Math.fround(hertz) * sample) / sampleRate);
}

function fraction(turns: number): number {
  return turns - Math.floor(turns);
}
