import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import type { Cents } from "../units/cents.ts";
import type { Hertz } from "../units/hertz.ts";
import type { ChanterNote } from "./chanter-note.ts";
import { droneConcertPitch, droneHertz, soundingDrones } from "./drones.ts";
import { holesOf } from "./fingerings.ts";
import type { Drone, Holes, PipeSetup } from "./pipe-setup.ts";
import { centsOffBand, centsOverLowA, concertPitchOf, hertzOf, notesThatSpeak } from "./sounding.ts";
import { type WrittenPitch, writtenPitchOf } from "./written-pitch.ts";

/** All that a piper wants to know of one note of a setup. */
export interface ChartedNote {
  readonly note: ChanterNote;
  readonly written: WrittenPitch;
  readonly holes: Holes;
  readonly concert: ConcertPitch;
  readonly hertz: Hertz;
  readonly overLowA: Cents;
  /** Above the band's pitch of that name; below, if negative. */
  readonly offBand: Cents;
}

/** One drone that sounds. */
export interface ChartedDrone {
  readonly name: Drone["name"];
  readonly concert: ConcertPitch;
  readonly hertz: Hertz;
}

/** A setup as a chart at the wall: its notes, those that speak, lowest first, and the drones that sound, lowest first. */
export interface SetupChart {
  readonly notes: readonly ChartedNote[];
  readonly drones: readonly ChartedDrone[];
}

/** The chart of a setup beside a band that tunes to an A. */
export function setupChart(setup: PipeSetup, bandA: Hertz): SetupChart {
  return {
    notes: notesThatSpeak(setup).map((note) => ({
      note,
      written: writtenPitchOf(note),
      holes: holesOf(setup, note),
      concert: concertPitchOf(setup, note),
      hertz: hertzOf(setup, note),
      overLowA: centsOverLowA(setup, note),
      offBand: centsOffBand(setup, note, bandA),
    })),
    drones: soundingDrones(setup).map((drone) => ({
      name: drone.name,
      concert: droneConcertPitch(setup, drone),
      hertz: droneHertz(setup, drone),
    })),
  };
}
