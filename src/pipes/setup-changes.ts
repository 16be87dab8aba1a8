import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { transposed } from "../pitch/transpose.ts";
import { type Hertz, hertz } from "../units/hertz.ts";
import type { CrossFingeredNote, PlainNote } from "./chanter-note.ts";
import { type ChanterName, defaultSetup } from "./default-setups.ts";
import type { ChanterScale, CrossFingering, Drone, Holes, PipeSetup } from "./pipe-setup.ts";

/** Another chanter in the stock, on its semitone at A 440: pitch and name change (and with them the octave), all else stays. */
export function withChanter(setup: PipeSetup, chanter: ChanterName): PipeSetup {
  const { lowA, lowAIs } = defaultSetup(chanter);
  return { ...setup, lowA, lowAIs };
}

/** Another pitch of low A. The name stays: only `withName` changes it. */
export function withLowA(setup: PipeSetup, lowA: Hertz): PipeSetup {
  return { ...setup, lowA };
}

/** Another name for the same pitch. */
export function withName(setup: PipeSetup, lowAIs: ConcertPitch): PipeSetup {
  return { ...setup, lowAIs };
}

export function withScale(setup: PipeSetup, scale: ChanterScale): PipeSetup {
  return { ...setup, scale };
}

/** One of the nine fingered otherwise. */
export function withFingering(setup: PipeSetup, note: PlainNote, holes: Holes): PipeSetup {
  return { ...setup, fingerings: { ...setup.fingerings, [note]: holes } };
}

/** Some of what is known of one cross-fingering, changed. */
export function withCrossFingering(setup: PipeSetup, note: CrossFingeredNote, change: Partial<Omit<CrossFingering, "note">>): PipeSetup {
  const crossFingerings = setup.crossFingerings.map((own) => (own.note === note ? { ...own, ...change } : own));
  return { ...setup, crossFingerings };
}

/** Some of what is known of the drone at this place in the list, changed. */
export function withDrone(setup: PipeSetup, index: number, change: Partial<Drone>): PipeSetup {
  return { ...setup, drones: setup.drones.map((drone, at) => (at === index ? { ...drone, ...change } : drone)) };
}

/** A baritone a fifth below low A beside the drones there are. *Source:* smallpipes, a fourth or fifth under low A: common practice. */
export function withBaritone(setup: PipeSetup): PipeSetup {
  return { ...setup, drones: [...setup.drones, { name: "baritone", ratio: [2, 3], on: true }] };
}

export function withoutDrone(setup: PipeSetup, index: number): PipeSetup {
  return { ...setup, drones: setup.drones.filter((_, at) => at !== index) };
}

/** The whole set of pipes sounding so many octaves higher (lower, if negative), its name with it: smallpipes sound one lower. */
export function shiftedByOctaves(setup: PipeSetup, octaves: number): PipeSetup {
  return { ...setup, lowA: hertz(setup.lowA * 2 ** octaves), lowAIs: transposed(setup.lowAIs, 7 * octaves, 12 * octaves) };
}
