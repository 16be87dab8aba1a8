import { expect, test } from "vitest";
import { renderOffline } from "../../components/sound/render-offline.ts";
import { CHANTER_NOTES, type ChanterNote } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { type Schedule, scheduleOf } from "../../src/playback/schedule.ts";
import type { PipeEvent } from "../../src/score/bar.ts";
import { decibels } from "../../src/units/decibels.ts";
import { hertz } from "../../src/units/hertz.ts";
import {
  between,
  centsFrom,
  effectiveValue,
  firstDifference,
  firstHeard,
  frequencyOf,
  largestStep,
  peakOf,
  quietestWindow,
} from "../support/measuring.ts";
import { pipeScore, secondFrame, withFiddle } from "../support/playback-scores.ts";
import { concertNote, gracedNote, pipeNote, rest } from "../support/written-music.ts";

/** The two rates that devices run at. Both in one page: waveforms kept from one rate are out of tune at the other. */
const RATES = [44_100, 48_000] as const;

/** What the schedule promises; the trade hears no less than 10 cents, and two pitches a tenth of a cent apart beat once in half a minute. */
const CENTS = 0.1;

const level = (value: number) => ({ decibels: decibels(value), muted: false });

/** Without a room, so that what is measured is what was played. */
const DRY: Blend = { ...USUAL_BLEND, room: null };
const FULL: Blend = {
  ...DRY,
  lines: { pipes: level(0), fiddle: level(0) },
  drones: { pipes: level(0) },
  click: level(0),
  master: level(0),
};
const FULL_EXCEPT_CLICK: Blend = { ...FULL, click: { ...FULL.click, muted: true } };

/** The chanter alone: its drones silent, no click. */
const CHANTER_ALONE: Blend = { ...FULL_EXCEPT_CLICK, drones: { pipes: { ...level(0), muted: true } } };

const SETUP = { ...defaultSetup(hertz(480)), crossFingerings: defaultCrossFingerings(["c-natural", "f-natural", "high-g-sharp"]) };

/** A bar of 13/4 with every chanter note for a second. */
const chromatic = pipeScore([[...CHANTER_NOTES.map((note) => pipeNote(note, 960)), rest(960)]], {
  setup: SETUP,
  frames: [secondFrame({ meter: { beats: 13, unit: 4 } })],
});

async function rendered(score: typeof chromatic, sampleRate: number, blend: Blend, schedule: Schedule = scheduleOf(score)) {
  return renderOffline(schedule, score, { sampleRate, seconds: schedule.end + 0.5, blend, limited: false });
}

test.each(RATES)("at %d samples a second every chanter note sounds the schedule's hertz within 0.1 cent", async (rate) => {
  const schedule = scheduleOf(chromatic);
  const sound = await rendered(chromatic, rate, CHANTER_ALONE);
  const steps = schedule.chanters[0]?.spans[0]?.steps ?? [];
  expect(steps).toHaveLength(12);
  for (const step of steps) {
    const heard = frequencyOf(between(sound, rate, step.at + 0.1, step.at + 0.95), rate);
    expect(Math.abs(centsFrom(step.hertz, heard)), `${step.note} at ${heard} Hz`).toBeLessThan(CENTS);
  }
});

test.each(RATES)("at %d samples a second every drone and every fiddle note sounds the schedule's hertz within 0.1 cent", async (rate) => {
  const score = withFiddle(pipeScore([[pipeNote("e", 3840)]], { setup: SETUP }), [
    [concertNote("A4", 960), concertNote("Bb3", 960), concertNote("C#5", 960), concertNote("G4", 960)],
  ]);
  const schedule = scheduleOf(score);
  for (const drone of schedule.drones) {
    const alone = { ...schedule, drones: [drone], chanters: [{ line: "pipes", spans: [] }], players: [] };
    const sound = await rendered(score, rate, FULL_EXCEPT_CLICK, alone);
    expect(Math.abs(centsFrom(drone.hertz, frequencyOf(between(sound, rate, 1, 2.5), rate))), drone.name).toBeLessThan(CENTS);
  }
  const fiddle = await rendered(score, rate, FULL_EXCEPT_CLICK, { ...schedule, drones: [], chanters: [] });
  for (const { start, hertz: wanted, pitch } of schedule.players[0]?.sounds ?? []) {
    expect(Math.abs(centsFrom(wanted, frequencyOf(between(fiddle, rate, start + 0.15, start + 0.95), rate))), pitch).toBeLessThan(CENTS);
  }
});

/**
 * Schedule times are snapped to the nearest sample, half a sample at most; the first sample of an opening gate or a turning phase is still 0.
 * So what is heard begins at the snapped sample or the one after it.
 */
const ONSET_SAMPLES = 1;

test.each(RATES)(
  "at %d samples a second strike-in, drones, fiddle and click begin within one sample of the snapped schedule",
  async (rate) => {
    const score = withFiddle(pipeScore([[rest(1111), pipeNote("e", 2729)]]), [[rest(777), concertNote("A4", 3063)]]);
    const schedule = scheduleOf(score, { tempoPercent: 97, droneLead: "beat" });
    const nothing: Schedule = { ...schedule, chanters: [], drones: [], players: [], clicks: [] };
    const parts: readonly (readonly [string, number, Partial<Schedule>])[] = [
      ["chanter", schedule.chanters[0]?.spans[0]?.start ?? 0, { chanters: schedule.chanters }],
      ["drones", schedule.drones[0]?.start ?? 0, { drones: schedule.drones, chanters: [{ line: "pipes", spans: [] }] }],
      ["fiddle", schedule.players[0]?.sounds[0]?.start ?? 0, { players: schedule.players }],
      ["click", schedule.clicks[1]?.at ?? 0, { clicks: schedule.clicks.slice(1) }],
    ];
    for (const [name, start, part] of parts) {
      const sound = await rendered(score, rate, FULL, { ...nothing, ...part });
      const late = firstHeard(sound) - Math.round(start * rate);
      expect(late, name).toBeGreaterThanOrEqual(0);
      expect(late, name).toBeLessThanOrEqual(ONSET_SAMPLES);
    }
  },
);

test.each(RATES)("at %d samples a second notes and gracenotes begin within one sample of the snapped schedule", async (rate) => {
  const plain = (...events: readonly PipeEvent[]) => pipeScore([[pipeNote("low-a", 1111), ...events]]);
  const held = plain(pipeNote("low-a", 2729));
  const stepped = plain(pipeNote("e", 2729));
  const graced = plain(gracedNote(["high-g"], "low-a", 2729));
  const [base, step, grace] = await Promise.all([held, stepped, graced].map((score) => rendered(score, rate, CHANTER_ALONE)));
  const at = scheduleOf(stepped).chanters[0]?.spans[0]?.steps[1]?.at ?? 0;
  for (const other of [step, grace]) {
    const late = firstDifference(base as Float32Array, other as Float32Array) - Math.round(at * rate);
    expect(late).toBeGreaterThanOrEqual(0);
    expect(late).toBeLessThanOrEqual(ONSET_SAMPLES);
  }
});

test.each(RATES)("at %d samples a second no note of the chanter is struck again: no jump and no dip where notes change", async (rate) => {
  const events = [pipeNote("low-a", 960), pipeNote("e", 960), gracedNote(["high-g", "e"], "f", 960), pipeNote("high-g", 960)];
  const score = pipeScore([events]);
  const schedule = scheduleOf(score);
  const sound = await rendered(score, rate, CHANTER_ALONE);
  const [span] = schedule.chanters[0]?.spans ?? [];
  const steps = span?.steps ?? [];
  expect(steps).toHaveLength(6);
  const steady = (at: number) => between(sound, rate, at + 0.2, at + 0.9);
  const notes = new Map(steps.filter(({ gracenote }) => !gracenote).map(({ note, at }) => [note, steady(at)]));
  const own = (note: ChanterNote) => notes.get(note) as Float32Array;
  // For a few milliseconds a new note has the sound of the old one at its own pitch, so its steepest rise is the old one's, that much faster.
  for (const [index, step] of steps.entries()) {
    const before = steps[index - 1];
    if (before === undefined) continue;
    const steepest = Math.max(largestStep(own(step.note)), largestStep(own(before.note)) * Math.max(1, step.hertz / before.hertz));
    expect(largestStep(between(sound, rate, step.at - 0.002, step.at + 0.012)), step.note).toBeLessThanOrEqual(steepest * 1.02);
  }
  // 10 ms hold four periods of the lowest note, so a window's value hardly depends on where in the period it begins.
  const window = Math.round(0.01 * rate);
  const quietest = Math.min(...[...notes.values()].map((note) => quietestWindow(note, window)));
  const sung = between(sound, rate, (span?.start ?? 0) + 0.05, (span?.stop ?? 0) - 0.05);
  expect(quietestWindow(sung, window)).toBeGreaterThanOrEqual(quietest * 0.95);
});

test("sound is gone 60 ms after the last cut-off, drones and all", async () => {
  const score = pipeScore([[pipeNote("e", 1920, { cutOff: true }), rest(1920)]]);
  const schedule = scheduleOf(score);
  const sound = await rendered(score, 48_000, FULL_EXCEPT_CLICK);
  const stop = schedule.drones[0]?.stop ?? 0;
  expect(effectiveValue(between(sound, 48_000, stop - 0.1, stop))).toBeGreaterThan(0.1);
  expect(peakOf(between(sound, 48_000, stop + 0.061, schedule.end + 0.4))).toBe(0);
});

const busy = withFiddle(pipeScore([CHANTER_NOTES.slice(0, 8).map((note) => gracedNote(["high-g", "d", "e"], note, 480))]), [
  [concertNote("Bb3 D4 F4 Bb4", 1920), concertNote("A3 C4 Eb4 F4", 1920)],
]);

test("with every level at the top no sample passes 1 dB under full scale", async () => {
  const top = level(6);
  const loud: Blend = { ...DRY, lines: { pipes: top, fiddle: top }, drones: { pipes: top }, click: top, master: top };
  const schedule = scheduleOf(busy);
  const wild = await rendered(busy, 48_000, loud);
  const held = await renderOffline(schedule, busy, { sampleRate: 48_000, seconds: schedule.end + 0.5, blend: loud });
  expect(peakOf(wild)).toBeGreaterThan(2);
  expect(peakOf(held)).toBeLessThanOrEqual(10 ** (-1 / 20));
});

test("at the usual levels the limiter, once it has run for a quarter of a second, changes nothing but delays all by 6 ms", async () => {
  const schedule = scheduleOf(busy);
  const plain = await rendered(busy, 48_000, USUAL_BLEND);
  const limited = await renderOffline(schedule, busy, { sampleRate: 48_000, seconds: schedule.end + 0.5 });
  const delay = firstHeard(limited) - firstHeard(plain);
  expect(delay / 48_000).toBeCloseTo(0.006, 4);
  const settled = 12_000;
  const before = plain.subarray(settled, plain.length - delay);
  const difference = before.map((value, index) => value - (limited[settled + delay + index] as number));
  expect(peakOf(difference)).toBeLessThan(peakOf(plain) * 0.001);
});

test("a muted voice is silent, and a level of -6 dB halves it", async () => {
  const score = pipeScore([[pipeNote("e", 3840)]]);
  const at = async (blend: Blend) => effectiveValue(between(await rendered(score, 48_000, blend), 48_000, 5, 6));
  const full = await at(CHANTER_ALONE);
  expect(await at({ ...CHANTER_ALONE, lines: { pipes: { ...level(0), muted: true } } })).toBe(0);
  expect((await at({ ...CHANTER_ALONE, lines: { pipes: level(-6) } })) / full).toBeCloseTo(0.5012, 3);
  expect((await at({ ...CHANTER_ALONE, master: level(-18) })) / full).toBeCloseTo(0.1259, 3);
});
