import { type Cents, centsBetween } from "../units/cents.ts";
import type { Partial } from "./partial.ts";

/** Two partials close enough to beat. */
export interface Beat {
  /** How often in a second; 0 where they are one. */
  readonly perSecond: number;
  /** From the other sound's partial to this one's, cents. */
  readonly cents: Cents;
  /** The place of each in its own list, from 0. */
  readonly partials: readonly [own: number, other: number];
  /** How deep it is: the weaker amplitude. */
  readonly depth: number;
}

/** Two partials further apart than a quarter tone are heard as two, cents. Where beating ends is not a line; this one is ours. */
export const BEATING_REACH = 50 as Cents;

/** Partials this far below the loudest beat of two sounds are no longer heard beside it, as a factor (−20 dB). */
const HEARD = 0.1;

/**
 * All pairs of partials of two sounds that beat, deepest first; of pairs equally deep, the lower first. Those much weaker than the deepest
 * are left out.
 */
export function beatsBetween(own: readonly Partial[], other: readonly Partial[], reach: Cents = BEATING_REACH): readonly Beat[] {
  const beats = own.flatMap((one, index) =>
    other.flatMap((met, place): readonly Beat[] => {
      const apart = centsBetween(met.hertz, one.hertz);
      const depth = Math.min(one.amplitude, met.amplitude);
      if (Math.abs(apart) > reach || depth === 0) return [];
      return [{ perSecond: Math.abs(one.hertz - met.hertz), cents: apart, partials: [index, place], depth }];
    }),
  );
  const deepest = Math.max(0, ...beats.map(({ depth }) => depth));
  return beats
    .filter(({ depth }) => depth >= deepest * HEARD)
    .sort((one, next) => next.depth - one.depth || one.partials[0] + one.partials[1] - next.partials[0] - next.partials[1]);
}

/** The beat that is heard most between two sounds, or null where nothing of them comes close. */
export function clearestBeat(own: readonly Partial[], other: readonly Partial[]): Beat | null {
  return beatsBetween(own, other)[0] ?? null;
}
