import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { equalHertz, nearestSemitone, USUAL_BAND_A } from "../pitch/reference-pitch.ts";
import { isConcertPitch } from "../pitch/spelling.ts";
import { centsBetween } from "../units/cents.ts";
import type { Hertz } from "../units/hertz.ts";
import { lowAName } from "./low-a-name.ts";

/** The least and the most a low A can be set to, hertz: from large smallpipes to small ones' upper octave, with room to spare. Our own bounds. */
export const LOW_A_REACH = { lowest: 150, highest: 700 } as const;

/** A name further than this from what low A sounds (for a band at A 440) is a slip of the pen: a whole tone. */
export const FARTHEST_NAME = 200;

/** Whether a number of hertz can be a low A. */
export function isLowA(value: number): boolean {
  return value >= LOW_A_REACH.lowest && value <= LOW_A_REACH.highest;
}

/**
 * The concert pitch with this name (`Bb`, no octave) that lies nearest to a low A, as the piper's name for it; null when the text names
 * no pitch, or one more than a whole tone away.
 */
export function lowACalled(name: string, lowA: Hertz): ConcertPitch | null {
  const { semitone } = nearestSemitone(lowA, USUAL_BAND_A);
  const octave = Math.floor(semitone / 12) - 1;
  const candidates = [octave - 1, octave, octave + 1].map((number) => `${name}${number}`).filter(isConcertPitch);
  const near = candidates.find((pitch) => Math.abs(centsBetween(equalHertz(pitch, USUAL_BAND_A), lowA)) <= FARTHEST_NAME);
  return near ?? null;
}

/** The names a low A may be offered: the nearest semitone's and its two neighbours', lowest first. */
export function lowANamesNear(lowA: Hertz): readonly ConcertPitch[] {
  const { semitone } = nearestSemitone(lowA, USUAL_BAND_A);
  return [semitone - 1, semitone, semitone + 1].map(lowAName);
}

/** Under this a low A is that of smallpipes, which have drones of their own (220, 233, 262, 294 Hz are in use: common practice). */
const SMALLPIPES_BELOW = 330;

/** Whether the pipes sound in the octave of smallpipes. */
export function isSmallpipes({ lowA }: { readonly lowA: Hertz }): boolean {
  return lowA < SMALLPIPES_BELOW;
}
