import { expect, test } from "vitest";
import { renderOffline } from "../../components/sound/render-offline.ts";
import { PLAYERS } from "../../src/ensemble/catalogue.ts";
import { CHANTER_NOTES, NINE_NOTES, type PlainNote } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { CHANTER_NAMES, type ChanterName, defaultSetup } from "../../src/pipes/default-setups.ts";
import type { ChanterScale, PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { SCALE_NAMES } from "../../src/pipes/scales.ts";
import { shownPitch } from "../../src/pitch/spelling.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { type Schedule, scheduleOf } from "../../src/playback/schedule.ts";
import type { Score } from "../../src/score/score.ts";
import { type Cents, cents } from "../../src/units/cents.ts";
import { decibels } from "../../src/units/decibels.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";
import { between, centsFrom, firstHeard, frequencyNear, peakOf } from "../support/measuring.ts";
import { pipeScore, secondFrame, withPlayer } from "../support/playback-scores.ts";
import { concertNote, pipeNote, rest } from "../support/written-music.ts";

const RATE = 48_000;

/** What the schedule promises. */
const CENTS = 0.1;

const full = { decibels: decibels(0), muted: false };
const ALONE: Blend = { ...USUAL_BLEND, lines: { pipes: full }, drones: { pipes: full }, master: full, room: null };
const CROSSED = defaultCrossFingerings(["c-natural", "f-natural", "high-g-sharp"]);

/** Nine measurements of an invented chanter, cents over low A. */
const MEASURED: ChanterScale = {
  kind: "measured",
  cents: Object.fromEntries(
    [-221.3, 0, 208.1, 379.9, 511.4, 703.2, 878.8, 985.5, 1203.7].map((value, index) => [NINE_NOTES[index], cents(value)]),
  ) as Record<PlainNote, Cents>,
};

async function heard(score: Score, schedule: Schedule): Promise<Float32Array> {
  return renderOffline(schedule, score, { sampleRate: RATE, seconds: schedule.end + 0.2, blend: ALONE, limited: false });
}

const scales: readonly (readonly [string, ChanterScale])[] = [
  ...SCALE_NAMES.map((name) => [name, { kind: "published", name }] as const),
  ["measured", MEASURED],
];
const chanters = CHANTER_NAMES.flatMap((name) => scales.map(([scale, own]) => [name, scale, own] as const));

/** A bar of 13/4, a rest at its end; played at 150 percent of a quarter a second. */
const chromatic = (setup: PipeSetup) =>
  pipeScore([[...CHANTER_NOTES.map((note) => pipeNote(note, 960)), rest(960)]], {
    setup,
    frames: [secondFrame({ meter: { beats: 13, unit: 4 } })],
  });

test.each(chanters)(
  "on the %s chanter in the %s scale all twelve notes sound the schedule's hertz within 0.1 cent",
  async (name, _, scale) => {
    const score = chromatic({ ...defaultSetup(name as ChanterName), crossFingerings: CROSSED, scale });
    const schedule = { ...scheduleOf(score, { tempoPercent: 150, droneLead: "beat" }), drones: [] };
    const sound = await heard(score, schedule);
    const steps = schedule.chanters[0]?.spans[0]?.steps ?? [];
    expect(steps).toHaveLength(CHANTER_NOTES.length);
    for (const { at, hertz: wanted, note } of steps) {
      const frequency = frequencyNear(between(sound, RATE, at + 0.05, at + 0.64), RATE, wanted);
      expect(Math.abs(centsFrom(wanted, frequency)), `${note}: ${frequency} Hz for ${wanted}`).toBeLessThan(CENTS);
    }
  },
);

/** Drones of every name, two of them off the octave. */
const MANY_DRONES: PipeSetup["drones"] = [
  { name: "tenor", ratio: [1, 2], on: true },
  { name: "tenor", ratio: [1, 2], on: true },
  { name: "baritone", ratio: [3, 8], on: true },
  { name: "bass", ratio: [1, 4], on: true },
  { name: "bass", ratio: [2, 9], on: true },
];

const sets: readonly (readonly [string, PipeSetup])[] = [
  ...CHANTER_NAMES.map((name) => [`${name} chanter`, { ...defaultSetup(name), drones: MANY_DRONES }] as const),
  ["set at 478.3 Hz", { ...defaultSetup(hertz(478.3)), drones: MANY_DRONES }],
  ["set of smallpipes at 220 Hz", { ...defaultSetup(hertz(220)), drones: MANY_DRONES }],
];

test.each(sets)("%s: each of five drones sounds the schedule's hertz within 0.1 cent, second tenor and all", async (_, setup) => {
  const score = pipeScore([[pipeNote("e", 3840)]], { setup });
  const schedule = scheduleOf(score, { droneLead: "beat", unisonBeat: 0.15 });
  expect(schedule.drones).toHaveLength(5);
  expect((schedule.drones[1]?.hertz ?? 0) - (schedule.drones[0]?.hertz ?? 0)).toBeCloseTo(0.15, 6);
  for (const drone of schedule.drones) {
    const sound = await heard(score, { ...schedule, drones: [drone], chanters: [{ line: "pipes", spans: [] }] });
    const frequency = frequencyNear(between(sound, RATE, 1, 2.5), RATE, drone.hertz);
    expect(Math.abs(centsFrom(drone.hertz, frequency)), `${drone.name}: ${frequency} Hz for ${drone.hertz}`).toBeLessThan(CENTS);
  }
});

test.each(PLAYERS)(
  "the synthetic voice of the $name sounds lowest and highest note within 0.1 cent of the band's A 442.5",
  async ({ id, range }) => {
    const notes = [range.lowest, range.highest].map((pitch) => concertNote(inLetters(pitch), 1920));
    const score: Score = { ...withPlayer(pipeScore([[rest(3840)]]), [{ kind: "own", events: notes }], id), bandA: hertz(442.5) };
    const schedule = scheduleOf(score);
    const sound = await heard(score, schedule);
    expect(schedule.players[0]?.sounds).toHaveLength(2);
    for (const { start, hertz: wanted, pitch } of schedule.players[0]?.sounds ?? []) {
      const frequency = frequencyNear(between(sound, RATE, start + 0.15, start + 1.8), RATE, wanted);
      expect(Math.abs(centsFrom(wanted, frequency)), `${pitch}: ${frequency} Hz for ${wanted}`).toBeLessThan(CENTS);
    }
  },
);

/** In the letters that tests write pitches in. */
function inLetters(pitch: Parameters<typeof shownPitch>[0]): string {
  return shownPitch(pitch).replace("♭", "b").replace("♯", "#");
}

test("before the strike-in the drones sound for a bar or for a beat, whichever is chosen, and never for less", async () => {
  const score = pipeScore([[rest(960), pipeNote("e", 2880)]]);
  for (const [droneLead, seconds] of [
    ["bar", 4],
    ["beat", 1],
  ] as const) {
    const schedule = scheduleOf(score, { droneLead });
    const both = await heard(score, schedule);
    const chanter = await heard(score, { ...schedule, drones: [] });
    expect((firstHeard(chanter) - firstHeard(both)) / RATE).toBeCloseTo(seconds, 4);
  }
});

test("at the last cut-off chanter and drones are gone within 100 ms of one another", async () => {
  const score = pipeScore([[pipeNote("e", 1920, { cutOff: true }), rest(1920)]]);
  const schedule = scheduleOf(score, { droneLead: "beat" });
  const ends = [];
  for (const one of [
    { ...schedule, drones: [] },
    { ...schedule, chanters: [{ line: "pipes", spans: [] }] },
  ])
    ends.push((await heard(score, one)).findLastIndex((sample) => Math.abs(sample) > 1e-4) / RATE);
  expect(Math.min(...ends)).toBeGreaterThan(2);
  expect(Math.abs((ends[0] as number) - (ends[1] as number))).toBeLessThan(0.1);
});

test("the count-in before a pickup is a bar and the beats the pickup lacks, each heard within one sample of its time, and not the click after it", async () => {
  const frames = [secondFrame({ short: ticks(960) }), secondFrame()];
  const score = pipeScore([[pipeNote("e", 960)], [pipeNote("e", 3840)]], { frames });
  const schedule = scheduleOf(score, { countIn: true });
  const counted = schedule.clicks.filter(({ countIn }) => countIn);
  expect(counted.map(({ at }) => schedule.timeline.start - at)).toEqual([7, 6, 5, 4, 3, 2, 1]);
  const sound = await heard(score, { ...schedule, chanters: [], drones: [], players: [] });
  for (const { at } of counted) {
    const late = firstHeard(between(sound, RATE, at, at + 0.01));
    expect(late).toBeGreaterThanOrEqual(0);
    expect(late).toBeLessThanOrEqual(1);
  }
  const gone = (counted.at(-1)?.at ?? 0) + 0.5;
  expect(peakOf(between(sound, RATE, gone, schedule.end))).toBeLessThan(1e-6);
});
