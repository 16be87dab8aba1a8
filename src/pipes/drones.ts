import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { transposed } from "../pitch/transpose.ts";
import { type Cents, centsOfRatio } from "../units/cents.ts";
import { type Hertz, hertz } from "../units/hertz.ts";
import type { Drone, PipeSetup } from "./pipe-setup.ts";

/** What a drone sounds. */
export function droneHertz(setup: PipeSetup, drone: Drone): Hertz {
  return hertz((setup.lowA * drone.ratio[0]) / drone.ratio[1]);
}

/** Staff steps of each number of semitones within an octave, as intervals over low A are usually spelled. */
const USUAL_STEPS = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6] as const;

/** The concert pitch nearest to a drone, counted from what the piper calls low A: `Bb3` for a tenor of a B-flat chanter. */
export function droneConcertPitch(setup: PipeSetup, drone: Drone): ConcertPitch {
  const semitones = Math.round(centsOfRatio(drone.ratio[0] / drone.ratio[1]) / 100);
  const octaves = Math.floor(semitones / 12);
  const steps = USUAL_STEPS[semitones - 12 * octaves] as number;
  return transposed(setup.lowAIs, octaves * 7 + steps, semitones);
}

/** Drones that sound, lowest first. */
export function soundingDrones(setup: PipeSetup): readonly Drone[] {
  return setup.drones.filter((drone) => drone.on).sort((a, b) => droneHertz(setup, a) - droneHertz(setup, b));
}

/** One partial of a drone within the chanter's reach. */
export interface DronePartial {
  /** Its number; 1 is the drone's own pitch. */
  readonly partial: number;
  /** Cents over low A. */
  readonly cents: Cents;
}

/** The part of the scale that the grid shows, cents over low A: a little under low G to a little over high A. */
export const GRID_REACH = { lowest: -300, highest: 1290 } as const;

/**
 * The partials of the lowest drone that sounds (the bass, unless it is corked) which lie within `GRID_REACH`, lowest first.
 * Empty when every drone is off.
 */
export function dronePartials(setup: PipeSetup): readonly DronePartial[] {
  const lowest = soundingDrones(setup)[0];
  if (!lowest) return [];
  const partials: DronePartial[] = [];
  for (let partial = 1; ; partial++) {
    const over = centsOfRatio((partial * lowest.ratio[0]) / lowest.ratio[1]);
    if (over > GRID_REACH.highest) return partials;
    if (over >= GRID_REACH.lowest) partials.push({ partial, cents: over });
  }
}
