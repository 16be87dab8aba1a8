import { type Cents, cents, shiftedByCents } from "../units/cents.ts";
import type { Partial } from "./partial.ts";

/*
 * Sensory dissonance: two pure tones close together beat, a little further apart they are rough, far apart they leave one another alone.
 *
 *   rough │   ╭─╮                     the top lies where s·|f₁ − f₂| = 0.2203 and is 0.8988 times the weaker amplitude
 *         │  ╱   ╲__
 *         │ ╱       ‾‾‾──____
 *         └┴──────────────────── distance
 *
 * Source: the idea, Plomp & Levelt, JASA 38 (1965) 548; the curve and its constants, the program in the appendix of W. A. Sethares,
 * Tuning, Timbre, Spectrum, Scale: s = 0.24 / (0.0207 f + 18.96) of the lower tone, min(a₁, a₂) · (5 e^(−3.51 s d) − 5 e^(−5.75 s d)).
 */

const STRENGTH = 5;
const RISE = 3.51;
const FALL = 5.75;

/** How fast the curve runs at a frequency, per hertz: the ear's critical bands widen upwards. */
function stretchAt(lower: number): number {
  return 0.24 / (0.0207 * lower + 18.96);
}

/** Beyond this distance (as s·d) two tones are left out: less than a hundred-millionth of the weaker amplitude. */
const FAR = 6;

/** The dissonance of two pure tones, 0 or more, in units of amplitude. */
export function pairDissonance(one: Partial, other: Partial): number {
  const distance = stretchAt(Math.min(one.hertz, other.hertz)) * Math.abs(one.hertz - other.hertz);
  return Math.min(one.amplitude, other.amplitude) * STRENGTH * (Math.exp(-RISE * distance) - Math.exp(-FALL * distance));
}

/** The dissonance of everything that sounds, each pair of tones once, in units of amplitude. The order of the list does not matter. */
export function dissonance(partials: readonly Partial[]): number {
  const rising = inOrder(partials);
  let sum = 0;
  rising.forEach((lower, index) => {
    const limit = reachOf(lower.hertz);
    for (let next = index + 1; next < rising.length; next++) {
      const upper = rising[next] as Partial;
      if (upper.hertz > limit) break;
      sum += pairDissonance(lower, upper);
    }
  });
  return sum;
}

/** Only what two sounds do to each other, leaving out what each does to itself: pairs with one tone of either. */
export function dissonanceBetween(one: readonly Partial[], other: readonly Partial[]): number {
  return betweenRising(inOrder(one), inOrder(other));
}

/** One place on a curve of dissonance. */
export interface DissonancePoint {
  /** How far the sound is moved, cents. */
  readonly cents: Cents;
  readonly dissonance: number;
}

/**
 * How dissonant a sound is against others while its pitch is moved, from `reach` cents below to `reach` above in steps of `step` (both ends
 * and 0 included where the step divides the reach).
 * @throws RangeError when the step is not above zero.
 */
export function dissonanceCurve(
  sound: readonly Partial[],
  against: readonly Partial[],
  reach = 50 as Cents,
  step = 1 as Cents,
): readonly DissonancePoint[] {
  if (!(step > 0)) throw new RangeError(`A curve goes in steps above zero, not ${step}.`);
  const [moving, still] = [inOrder(sound), inOrder(against)];
  const steps = Math.floor((2 * reach) / step + 1e-9);
  return Array.from({ length: steps + 1 }, (_, index) => {
    const by = cents(index * step - reach);
    const moved = moving.map(({ hertz, amplitude }) => ({ hertz: shiftedByCents(hertz, by), amplitude }));
    return { cents: by, dissonance: betweenRising(moved, still) };
  });
}

function betweenRising(one: readonly Partial[], other: readonly Partial[]): number {
  let sum = 0;
  let start = 0;
  for (const tone of one) {
    // The lower tone of a pair decides how far is far; what lies too far below this tone lies too far below all after it.
    while (start < other.length && reachOf((other[start] as Partial).hertz) < tone.hertz) start += 1;
    const limit = reachOf(tone.hertz);
    for (let index = start; index < other.length; index++) {
      const met = other[index] as Partial;
      if (met.hertz > limit) break;
      sum += pairDissonance(tone, met);
    }
  }
  return sum;
}

function reachOf(lower: number): number {
  return lower + FAR / stretchAt(lower);
}

function inOrder(partials: readonly Partial[]): readonly Partial[] {
  return [...partials].sort((one, other) => one.hertz - other.hertz);
}
