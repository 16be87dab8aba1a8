import { shownBandA } from "../pitch/reference-pitch.ts";
import type { Hertz } from "../units/hertz.ts";

/** How far brass and reeds can take their A4 without giving up their tone. *Source:* common practice, from memory. */
export const BRASS_AND_REEDS = { lowest: 435, highest: 446 } as const;

/** Players who cannot move at all are taken to stand at A 440, give or take this, hertz. Our own choice. */
const FIXED_WITHIN = 1;

/** Who in a band can go to an A4, in a sentence or two. *Source:* common practice, from memory. */
export function whoCanFollow(bandA: Hertz): string {
  if (Math.abs(bandA - 440) <= FIXED_WITHIN) return "Everybody can play at this pitch.";
  const pitch = shownBandA(bandA);
  const all = "Voice, fiddle, guitar and digital keys can";
  const fixed = "Accordion, acoustic piano, harmonica and tuned percussion cannot.";
  if (bandA >= BRASS_AND_REEDS.lowest && bandA <= BRASS_AND_REEDS.highest)
    return `${all} follow to ${pitch}, and brass and reeds just about. ${fixed}`;
  return `${all} follow to ${pitch}. Brass and reeds reach about ${BRASS_AND_REEDS.lowest} to ${BRASS_AND_REEDS.highest}. ${fixed}`;
}
