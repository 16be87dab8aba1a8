import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { equalHertz, USUAL_BAND_A } from "../pitch/reference-pitch.ts";
import { concertPitch } from "../pitch/spelling.ts";
import type { Hertz } from "../units/hertz.ts";
import { defaultCrossFingerings } from "./cross-fingerings.ts";
import { PLAIN_FINGERINGS } from "./fingerings.ts";
import { usualLowAName } from "./low-a-name.ts";
import type { Drone, PipeSetup } from "./pipe-setup.ts";

/** The chanters that are sold by a name. */
export type ChanterName = "A" | "Bb" | "B";

/** Every chanter that has a name, lowest first. */
export const CHANTER_NAMES: readonly ChanterName[] = ["A", "Bb", "B"];

const NAMED_LOW_A: Readonly<Record<ChanterName, ConcertPitch>> = {
  A: concertPitch("A4"),
  Bb: concertPitch("Bb4"),
  B: concertPitch("B4"),
};

/** Two tenors an octave under low A and a bass two octaves under. *Source:* Encyclopaedia Britannica, 1911, “Bag-pipe”. */
export const HIGHLAND_DRONES: readonly Drone[] = [
  { name: "tenor", ratio: [1, 2], on: true },
  { name: "tenor", ratio: [1, 2], on: true },
  { name: "bass", ratio: [1, 4], on: true },
];

/**
 * A Highland setup to begin with: septimal scale, two tenors and a bass, no cross-fingering ticked. A named chanter is put exactly on its
 * semitone for a band at A 440; one given by the hertz of its low A gets its usual name (see `usualLowAName`).
 */
export function defaultSetup(chanter: ChanterName | Hertz): PipeSetup {
  const [lowA, lowAIs] =
    typeof chanter === "number"
      ? [chanter, usualLowAName(chanter)]
      : [equalHertz(NAMED_LOW_A[chanter], USUAL_BAND_A), NAMED_LOW_A[chanter]];
  return {
    lowA,
    lowAIs,
    scale: { kind: "published", name: "septimal" },
    fingerings: PLAIN_FINGERINGS,
    crossFingerings: defaultCrossFingerings(),
    drones: HIGHLAND_DRONES,
    canRest: false,
  };
}
