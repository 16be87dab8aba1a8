import type { Spectrum } from "../acoustics/partial.ts";
import type { Drone } from "../pipes/pipe-setup.ts";
import { decibels } from "../units/decibels.ts";

const TENOR = spectrum(-2, 0, -3, -5, -4, -8, -9, -11, -12, -15, -16, -18, -20, -22, -24, -26, -28, -30, -32, -34);
const BASS = spectrum(-6, -2, 0, -3, -3, -5, -6, -7, -9, -10, -12, -13, -15, -16, -18, -19, -21, -22, -24, -25, -27, -28, -30, -31);

/**
 * Harmonics of each drone, in decibels, the fundamental first. The bass is heard mostly by its upper harmonics.
 * *Source:* none. Synthetic: no table of a drone's harmonics could be read.
 */
export const DRONE_SPECTRA: Readonly<Record<Drone["name"], Spectrum>> = { tenor: TENOR, baritone: TENOR, bass: BASS };

function spectrum(...levels: readonly number[]): Spectrum {
  return levels.map(decibels);
}
