import { expect, test } from "vitest";
import { CHANTER_NOTES, NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { withDrone, withFingering } from "../../src/pipes/setup-changes.ts";
import { setupChart } from "../../src/pipes/setup-chart.ts";
import { hertz } from "../../src/units/hertz.ts";
import { fullSetup } from "../support/lantern-score.ts";

const BAND = hertz(440);

test("the chart of a new setup has the nine, lowest first, and three drones from the bass up", () => {
  const { notes, drones } = setupChart(defaultSetup("Bb"), BAND);
  expect(notes.map(({ note }) => note)).toEqual(NINE_NOTES);
  expect(drones.map(({ name, concert, hertz: sounds }) => [name, concert, Math.round(sounds * 100) / 100])).toEqual([
    // Source: an octave and two octaves under 466.16 Hz (Encyclopaedia Britannica 1911 for the intervals; arithmetic for the hertz).
    ["bass", "Bb2", 116.54],
    ["tenor", "Bb3", 233.08],
    ["tenor", "Bb3", 233.08],
  ]);
});

test("septimal C of a B-flat chanter is written C sharp 5, sounds D5 at 582.7 Hz, 13.7 cents under the band's", () => {
  // Source: 5/4 over 466.16 Hz; deviation as derived from Macpherson 1998.
  const c = setupChart(defaultSetup("Bb"), BAND).notes.find(({ note }) => note === "c");
  expect(c).toMatchObject({ written: "C#5", concert: "D5", holes: "X XXX XOOX" });
  expect(c?.hertz).toBeCloseTo(582.7, 1);
  expect(c?.offBand).toBeCloseTo(-13.7, 1);
  expect(c?.overLowA).toBeCloseTo(386.3, 1);
});

test("cross-fingered notes stand in it once they speak, edited holes as edited, corked drones not at all", () => {
  const setup = withDrone(withFingering(fullSetup("B"), "d", "X XXX OOOO"), 2, { on: false });
  const { notes, drones } = setupChart(setup, BAND);
  expect(notes.map(({ note }) => note)).toEqual(CHANTER_NOTES);
  expect(notes.find(({ note }) => note === "d")?.holes).toBe("X XXX OOOO");
  expect(drones.map(({ name }) => name)).toEqual(["tenor", "tenor"]);
});
