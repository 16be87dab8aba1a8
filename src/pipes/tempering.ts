import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { bandAForPitch, equalHertz } from "../pitch/reference-pitch.ts";
import { semitoneOf } from "../pitch/semitone.ts";
import { type Cents, centsBetween } from "../units/cents.ts";
import type { Hertz } from "../units/hertz.ts";
import { lowAName } from "./low-a-name.ts";
import type { PipeSetup } from "./pipe-setup.ts";

/** The other name a chanter between two semitones could go by. */
export interface OtherWay {
  readonly concert: ConcertPitch;
  /** Low A against that pitch for the band as it is tuned. */
  readonly cents: Cents;
  /** The A4 at which a band would have low A exactly, under that name. */
  readonly bandAToMatch: Hertz;
}

/** Within this of its name, low A needs no other. */
const NEAR_ENOUGH = 5;

/** Low A against its own name as the band has it; positive: the pipes are sharp. */
export function lowACentsOff(setup: PipeSetup, bandA: Hertz): Cents {
  return centsBetween(equalHertz(setup.lowAIs, bandA), setup.lowA);
}

/** The A4 at which a band, in equal temperament, has the pipes' low A exactly, under the name the piper gives it. */
export function bandAToMatch(setup: PipeSetup): Hertz {
  return bandAForPitch(setup.lowAIs, setup.lowA);
}

/** The neighbouring semitone's solution, on the side where low A lies; null when low A is within 5 cents of its name. */
export function otherWay(setup: PipeSetup, bandA: Hertz): OtherWay | null {
  const off = lowACentsOff(setup, bandA);
  if (Math.abs(off) <= NEAR_ENOUGH) return null;
  const concert = lowAName(semitoneOf(setup.lowAIs) + Math.sign(off));
  return {
    concert,
    cents: centsBetween(equalHertz(concert, bandA), setup.lowA),
    bandAToMatch: bandAForPitch(concert, setup.lowA),
  };
}

/** Low A when a tuner set to `tunerA` reads it as exactly `reads`: set to 453.06 and reading B flat, low A is 480 Hz. */
export function lowAFromTuner(tunerA: Hertz, reads: ConcertPitch): Hertz {
  return equalHertz(reads, tunerA);
}
