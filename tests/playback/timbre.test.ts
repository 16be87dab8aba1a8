import { expect, test } from "vitest";
import type { Spectrum } from "../../src/acoustics/partial.ts";
import { PLAYERS } from "../../src/ensemble/catalogue.ts";
import { CHANTER_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import { CHANTER_SPECTRA, CHANTER_TONES, timbreOn } from "../../src/playback/chanter-timbre.ts";
import { DRONE_SPECTRA } from "../../src/playback/drone-timbre.ts";
import { familyOf, PLAYER_TIMBRES } from "../../src/playback/player-timbre.ts";
import { waveformOf } from "../../src/playback/spectrum.ts";
import { decibels } from "../../src/units/decibels.ts";

const SPECTRA: readonly Spectrum[] = [
  ...Object.values(CHANTER_SPECTRA),
  ...Object.values(DRONE_SPECTRA),
  ...Object.values(PLAYER_TIMBRES).map(({ spectrum }) => spectrum),
];

/** One turn of a waveform, added up harmonic by harmonic. */
function turnOf(spectrum: Spectrum): readonly number[] {
  const { cosines, sines } = waveformOf(spectrum);
  return Array.from({ length: 1024 }, (_, index) => {
    let value = 0;
    for (let harmonic = 1; harmonic < cosines.length; harmonic += 1) {
      const angle = (2 * Math.PI * harmonic * index) / 1024;
      value += (cosines[harmonic] as number) * Math.cos(angle) + (sines[harmonic] as number) * Math.sin(angle);
    }
    return value;
  });
}

test("every waveform has an effective value of 0.25 (-12 dB), whatever its spectrum", () => {
  for (const spectrum of SPECTRA) {
    const turn = turnOf(spectrum);
    expect(Math.sqrt(turn.reduce((sum, value) => sum + value * value, 0) / turn.length)).toBeCloseTo(0.25, 5);
  }
});

test("by itself and at 0 dB no waveform peaks above 3 dB under full scale", () => {
  for (const spectrum of SPECTRA) expect(Math.max(...turnOf(spectrum).map(Math.abs))).toBeLessThan(10 ** (-3 / 20));
});

test("every chanter note is mixed from shares of the four sounds that add up to 1", () => {
  for (const note of CHANTER_NOTES) {
    const shares = CHANTER_TONES.map((tone) => timbreOn(defaultSetup("Bb"), note).mix[tone]);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    for (const share of shares) expect(share).toBeGreaterThanOrEqual(0);
  }
});

test("a cross-fingered note sounds like the plain one of its letter at dullness 0, all dull at 10, and as much softer as the setup says", () => {
  const on = (dullness: number, level: number) =>
    timbreOn(withCrossFingering(defaultSetup("Bb"), "high-g-sharp", { dullness, level: decibels(level) }), "high-g-sharp");
  const plain = timbreOn(defaultSetup("Bb"), "high-g");
  expect(on(0, 0)).toEqual(plain);
  expect(on(10, -4)).toEqual({ mix: { dull: 1, normal: 0, bright: 0, thin: 0 }, level: plain.level - 4 });
});

test("every player of the catalogue sounds like its own family", () => {
  const ids = (family: keyof typeof PLAYER_TIMBRES) =>
    PLAYERS.map(({ id }) => id)
      .filter((id) => familyOf(id) === family)
      .toSorted();
  expect(ids("bowed")).toEqual(["cello", "fiddle", "viola"]);
  expect(ids("flute")).toEqual([
    "flute",
    "low-whistle-d",
    "low-whistle-e",
    "low-whistle-eb",
    "voice",
    "whistle-bb",
    "whistle-c",
    "whistle-d",
    "whistle-e",
    "whistle-eb",
  ]);
  expect(ids("reed")).toEqual(["accordion", "alto-sax", "baritone-sax", "clarinet-bb", "oboe", "soprano-sax", "tenor-sax"]);
  expect(ids("plucked")).toEqual(["bass-guitar", "double-bass", "guitar", "mandolin", "piano"]);
  expect(ids("brass")).toEqual([
    "baritone-bb",
    "bass-bb",
    "bass-eb",
    "cornet-bb",
    "euphonium",
    "euphonium-bb",
    "flugelhorn-bb",
    "horn-f",
    "soprano-cornet-eb",
    "tenor-horn-eb",
    "trombone",
    "trombone-bb",
    "trumpet-bb",
    "tuba",
  ]);
});
