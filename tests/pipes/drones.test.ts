import { describe, expect, it } from "vitest";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { droneConcertPitch, droneHertz, dronePartials, soundingDrones } from "../../src/pipes/drones.ts";
import type { Drone, PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { shiftedByOctaves, withBaritone, withDrone, withoutDrone } from "../../src/pipes/setup-changes.ts";

const bFlat = defaultSetup("Bb");
const drone = (setup: PipeSetup, index: number): Drone => setup.drones[index] as Drone;

describe("the drones of a B-flat chanter at 466.16 Hz", () => {
  it("are two tenors at 233.08 Hz and a bass at 116.54 Hz (an octave and two under low A: Encyclopaedia Britannica 1911)", () => {
    expect(bFlat.drones.map(({ name }) => name)).toEqual(["tenor", "tenor", "bass"]);
    expect(bFlat.drones.map((own) => Number(droneHertz(bFlat, own).toFixed(2)))).toEqual([233.08, 233.08, 116.54]);
  });

  it("are named B flat 3 and B flat 2", () => {
    expect(bFlat.drones.map((own) => droneConcertPitch(bFlat, own))).toEqual(["Bb3", "Bb3", "Bb2"]);
  });
});

describe("a drone", () => {
  it("a fifth below low A is named by that interval: E flat 4 under B flat 4, E4 under B4", () => {
    const setup = withBaritone(bFlat);
    expect(droneHertz(setup, drone(setup, 3))).toBeCloseTo((466.1637615 * 2) / 3, 4);
    expect(droneConcertPitch(setup, drone(setup, 3))).toBe("Eb4");
    const onB = withBaritone(defaultSetup("B"));
    expect(droneConcertPitch(onB, drone(onB, 3))).toBe("E4");
  });

  it("follows low A into the octave of smallpipes", () => {
    const small = shiftedByOctaves(bFlat, -1);
    expect(small.lowAIs).toBe("Bb3");
    expect(droneHertz(small, drone(small, 2))).toBeCloseTo(58.27, 2);
    expect(droneConcertPitch(small, drone(small, 2))).toBe("Bb1");
  });

  it("that is corked does not sound, and the others come lowest first", () => {
    const corked = withDrone(bFlat, 2, { on: false });
    expect(soundingDrones(bFlat).map(({ name }) => name)).toEqual(["bass", "tenor", "tenor"]);
    expect(soundingDrones(corked).map(({ name }) => name)).toEqual(["tenor", "tenor"]);
    expect(bFlat.drones[2]?.on).toBe(true);
  });

  it("can be taken away", () => {
    expect(withoutDrone(bFlat, 0).drones.map(({ name }) => name)).toEqual(["tenor", "bass"]);
  });
});

describe("the partials of the drones on the grid", () => {
  it("are the bass drone's 4th to 8th, on low A, septimal C, E, high G and high A", () => {
    const partials = dronePartials(bFlat);
    expect(partials.map(({ partial }) => partial)).toEqual([4, 5, 6, 7, 8]);
    expect(partials.map(({ cents }) => Number(cents.toFixed(1)))).toEqual([0, 386.3, 702.0, 968.8, 1200]);
  });

  it("are the tenors' 2nd, 3rd and 4th when the bass is corked, and none when all are", () => {
    const corked = withDrone(bFlat, 2, { on: false });
    expect(dronePartials(corked).map(({ partial }) => partial)).toEqual([2, 3, 4]);
    const silent = withDrone(withDrone(corked, 0, { on: false }), 1, { on: false });
    expect(dronePartials(silent)).toEqual([]);
  });
});
