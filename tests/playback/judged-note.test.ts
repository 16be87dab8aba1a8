import { expect, test } from "vitest";
import { CHANTER_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { withCrossFingering, withDrone } from "../../src/pipes/setup-changes.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import { type Company, judgedNote } from "../../src/playback/judged-note.ts";
import { PLAYER_TIMBRES } from "../../src/playback/player-timbre.ts";
import { cents } from "../../src/units/cents.ts";
import { decibels } from "../../src/units/decibels.ts";
import { hertz } from "../../src/units/hertz.ts";

const bowed = PLAYER_TIMBRES.bowed.spectrum;
const band = (...names: readonly string[]): Company => ({
  bandA: hertz(440),
  band: names.map((name) => ({ pitch: concertPitch(name), spectrum: bowed, level: decibels(-8) })),
});
const ALONE = band();
const B_CHANTER = withCrossFingering(defaultSetup("B"), "high-g-sharp", { speaks: true, cents: cents(1079) });

test("on a B chanter septimal high G lies 31 cents under the band's A5, on the bass drone's 7th partial, and beats 15.7 times a second with A5 and 2.9 with F sharp 4", () => {
  // Source: derived from 7/4 over 493.88 Hz and ISO 16; 3 · 864.3 against 7 · 369.99 Hz.
  const judged = judgedNote(B_CHANTER, "high-g", band("A5", "F#4"));
  expect(judged.offBand).toBeCloseTo(-31.2, 1);
  expect(judged.offDrone).toMatchObject({ drone: "bass", partial: 7 });
  expect(judged.offDrone?.cents).toBeCloseTo(0, 6);
  const rates = Object.fromEntries(judged.beatsWithBand.map((beat) => [beat.with, beat.perSecond]));
  expect(rates.A5).toBeCloseTo(15.7, 1);
  expect(rates["F#4"]).toBeCloseTo(2.9, 1);
});

test("a high G sharp 1079 cents over low A lies 21 cents under the band's A sharp 5 and beats 11.2 times a second with it, 7.8 with F sharp 4", () => {
  // Source: derived; 2 · 921.1 against 5 · 369.99 Hz.
  const judged = judgedNote(B_CHANTER, "high-g-sharp", band("A#5", "F#4"));
  expect(judged.offBand).toBeCloseTo(-21, 1);
  const rates = Object.fromEntries(judged.beatsWithBand.map((beat) => [beat.with, beat.perSecond]));
  expect(rates["A#5"]).toBeCloseTo(11.2, 1);
  expect(rates["F#4"]).toBeCloseTo(7.8, 1);
});

test("just C and E dip within 1 cent of where they are over the drones alone; moved 30 cents they are rougher", () => {
  for (const note of ["c", "e"] as const) {
    const { curve, dissonance } = judgedNote(defaultSetup("Bb"), note, ALONE);
    const lowest = curve.reduce((best, point) => (point.dissonance < best.dissonance ? point : best));
    expect(Math.abs(lowest.cents), note).toBeLessThanOrEqual(1);
    expect(curve.find((point) => point.cents === 0)?.dissonance).toBeCloseTo(dissonance, 12);
    for (const moved of [-30, 30]) expect(curve.find((point) => point.cents === moved)?.dissonance).toBeGreaterThan(dissonance * 1.1);
  }
});

test("in the equal scale C beats with the bass drone's 5th partial by the difference of 5/4 and 400 cents", () => {
  const setup = { ...defaultSetup("Bb"), scale: { kind: "published", name: "equal" } as const };
  const beat = judgedNote(setup, "c", ALONE).beatsWithDrones.find((one) => one.with === "bass");
  expect(beat?.perSecond).toBeCloseTo(setup.lowA * (2 ** (4 / 12) - 5 / 4), 6);
});

test("with every drone corked nothing is said of drones, and alone nothing is rough", () => {
  const setup = defaultSetup("Bb").drones.reduce((one, _, index) => withDrone(one, index, { on: false }), defaultSetup("Bb"));
  for (const note of CHANTER_NOTES) {
    const judged = judgedNote(setup, note, ALONE);
    expect(judged.offDrone).toBeNull();
    expect(judged.beatsWithDrones).toEqual([]);
    expect(judged.dissonance).toBe(0);
  }
});
