import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { shownBandA } from "../pitch/reference-pitch.ts";
import { pitchClassShown, shownPitch } from "../pitch/spelling.ts";
import type { Hertz } from "../units/hertz.ts";
import { rounded, shownNumber } from "../units/shown.ts";
import type { PipeSetup } from "./pipe-setup.ts";
import { bandAToMatch, lowACentsOff, type OtherWay, otherWay } from "./tempering.ts";

/** From here a difference is said to lie between two names rather than to be sharp or flat: mistunings are identified from 20 to 30 cents. *Source:* J. Vos, 1982. */
const BETWEEN = 30;

/** Below this nobody hears anything: the sentence calls it exact. Our own choice; about 10 cents is just noticeable to musicians (Arndt et al., 2020). */
const EXACT = 0.5;

/**
 * What a low A means for a band, in a sentence or two: “496 Hz is B4 for a band at A 441.9; against A 440 you are 7 cents sharp.”
 * A chanter between two semitones is told so; `otherWay` has the other name's figures.
 */
export function lowASentence(setup: PipeSetup, bandA: Hertz): string {
  const off = lowACentsOff(setup, bandA);
  const low = shownNumber(setup.lowA, 1);
  const name = shownPitch(setup.lowAIs);
  const match = shownBandA(bandAToMatch(setup));
  if (Math.abs(off) < EXACT) return `${low} Hz is ${name} for a band at ${shownBandA(bandA)}.`;
  const other = otherWay(setup, bandA);
  if (Math.abs(off) > BETWEEN && Math.abs(off) < 100 && other) return betweenSentence(setup.lowAIs, low, match, other);
  const size = Math.max(1, rounded(Math.abs(off), 0));
  const side = off > 0 ? "sharp" : "flat";
  return `${low} Hz is ${name} for a band at ${match}; against ${shownBandA(bandA)} you are ${size} ${size === 1 ? "cent" : "cents"} ${side}.`;
}

function betweenSentence(name: ConcertPitch, low: string, match: string, other: OtherWay): string {
  const [own, neighbour] = [pitchClassShown(name), pitchClassShown(other.concert)];
  const [lower, upper] = other.cents < 0 ? [own, neighbour] : [neighbour, own];
  return `A chanter at ${low} lies between ${lower} and ${upper}. ` + `No key fixes that: called ${own}, the band would tune to ${match}.`;
}
