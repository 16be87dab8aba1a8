import { expect, test } from "vitest";
import { timeOnClock } from "../../components/sound/audio-clock.ts";
import { BlendGraph } from "../../components/sound/blend-graph.ts";
import { soundContextOf } from "../../components/sound/sound-context.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { type ScheduleOptions, scheduleOf } from "../../src/playback/schedule.ts";
import type { Score } from "../../src/score/score.ts";
import { decibels } from "../../src/units/decibels.ts";
import { ticks } from "../../src/units/ticks.ts";
import {
  between,
  centsFrom,
  effectiveValue,
  firstDifference,
  frequencyOf,
  largestStep,
  peakOf,
  quietestWindow,
} from "../support/measuring.ts";
import { pipeScore, withFiddle } from "../support/playback-scores.ts";
import { concertNote, pipeNote, rest } from "../support/written-music.ts";

const RATE = 48_000;
const level = (value: number) => ({ decibels: decibels(value), muted: false });

/** Without a room, so that what is measured is what was played. */
const DRY: Blend = { ...USUAL_BLEND, room: null };
const OFF = { decibels: decibels(0), muted: true };
const CHANTER: Blend = { ...DRY, lines: { pipes: level(0), fiddle: OFF }, drones: { pipes: OFF }, click: OFF, master: level(0) };
const FIDDLE: Blend = { ...DRY, lines: { pipes: OFF, fiddle: level(0) }, drones: { pipes: OFF }, click: OFF, master: level(0) };
const DRONES: Blend = { ...DRY, lines: { pipes: OFF, fiddle: OFF }, drones: { pipes: level(0) }, click: OFF, master: level(0) };

/** A change of plan while it plays: from a second of the audio clock on, another score or other options, taken up at this second of their schedule. */
interface Change {
  readonly at: number;
  readonly enters: number;
  readonly score: Score;
  readonly options?: ScheduleOptions;
}

/** Plays the first score and, in the middle of it, goes over to others, as the player does. */
async function playedWith(score: Score, blend: Blend, changes: readonly Change[], length = 9): Promise<Float32Array> {
  const native = new OfflineAudioContext(1, length * RATE, RATE);
  const graph = new BlendGraph(soundContextOf(native), native.destination, score, blend);
  graph.follow(scheduleOf(score, AT_ONCE), score, 0, timeOnClock(0, RATE));
  for (const { at, enters, score: next, options } of changes) {
    graph.writeUntil(at + 5);
    graph.follow(scheduleOf(next, { ...AT_ONCE, ...options }), next, enters, timeOnClock(at - enters, RATE));
  }
  graph.writeUntil(length);
  return (await native.startRendering()).getChannelData(0);
}

/** Music begins after a second of drones, at a quarter a second. */
const AT_ONCE: ScheduleOptions = { droneLead: "beat" };

const bars = (first: readonly Parameters<typeof pipeNote>[0][], second: readonly Parameters<typeof pipeNote>[0][]) =>
  withFiddle(
    pipeScore([first.map((note) => pipeNote(note, 3840 / first.length)), second.map((note) => pipeNote(note, 3840 / second.length))]),
    [[concertNote("A4", 3840)], [concertNote("C5", 3840)]],
  );

const before = bars(["low-a", "e"], ["f", "high-a"]);
const after = bars(["low-a", "e"], ["d", "low-a"]);

test("following the same score again in the middle of a note changes nothing that can be heard", async () => {
  const plain = await playedWith(before, CHANTER, []);
  const again = await playedWith(before, CHANTER, [
    { at: 2.3, enters: 2.3, score: before },
    { at: 5.71, enters: 5.71, score: before },
  ]);
  const difference = plain.map((value, index) => value - (again[index] as number));
  expect(peakOf(plain)).toBeGreaterThan(0.3);
  expect(peakOf(difference)).toBeLessThan(1e-4);
});

test("an edit of the next bar is heard from its bar line on, and until then nothing is different", async () => {
  const plain = await playedWith(before, CHANTER, []);
  const edited = await playedWith(before, CHANTER, [{ at: 5, enters: 5, score: after }]);
  expect(Math.abs(firstDifference(plain, edited) - 5 * RATE)).toBeLessThanOrEqual(1);
  const wanted = scheduleOf(after, AT_ONCE).chanters[0]?.spans[0]?.steps[2];
  expect(wanted?.at).toBe(5);
  expect(Math.abs(centsFrom(wanted?.hertz ?? 0, frequencyOf(between(edited, RATE, 5.2, 6.8), RATE)))).toBeLessThan(0.1);
});

test("going over to another tempo in the middle of a note leaves no gap, no jump, and the same note", async () => {
  // Bar 1 holds E from 3 s on; at half the tempo its middle lies at 2 + 6 s.
  const slowed = await playedWith(before, CHANTER, [{ at: 4, enters: 8, score: before, options: { tempoPercent: 50 } }]);
  const steady = between(slowed, RATE, 3.2, 3.9);
  const seam = between(slowed, RATE, 3.9, 4.1);
  expect(largestStep(seam)).toBeLessThanOrEqual(largestStep(steady) * 1.001);
  expect(quietestWindow(seam, RATE / 100)).toBeGreaterThanOrEqual(quietestWindow(steady, RATE / 100) * 0.99);
  expect(Math.abs(centsFrom(frequencyOf(steady, RATE), frequencyOf(between(slowed, RATE, 4.1, 5.9), RATE)))).toBeLessThan(0.01);
});

test("a note that an edit takes away under the playing position stops without a click", async () => {
  const silent = withFiddle(pipeScore([[rest(3840)], [rest(3840)]]), [[rest(3840)], [rest(3840)]]);
  for (const blend of [CHANTER, FIDDLE]) {
    const sound = await playedWith(before, blend, [{ at: 4, enters: 4, score: silent }]);
    expect(largestStep(between(sound, RATE, 3.99, 9))).toBeLessThanOrEqual(largestStep(between(sound, RATE, 3.2, 3.9)) * 1.01);
    expect(effectiveValue(between(sound, RATE, 3.5, 3.9))).toBeGreaterThan(0.1);
    expect(peakOf(between(sound, RATE, 4.3, 9))).toBeLessThan(1e-4);
  }
});

test("a fiddle note that goes on after an edit elsewhere is not struck again", async () => {
  const plain = await playedWith(before, FIDDLE, []);
  const edited = await playedWith(before, FIDDLE, [{ at: 3, enters: 3, score: after }]);
  const difference = plain.map((value, index) => value - (edited[index] as number));
  expect(peakOf(difference)).toBeLessThan(1e-4);
});

test("a setup that changes while it plays retunes the drones without a break", async () => {
  const [pipes, fiddle] = before.lines;
  if (pipes?.kind !== "pipes" || fiddle === undefined) throw new RangeError("pipes first");
  const onlyBass = pipes.setup.drones.map((drone) => ({ ...drone, on: drone.name === "bass" }));
  const lower = { ...pipes.setup, drones: onlyBass };
  const one: Score = { ...before, lines: [{ ...pipes, setup: lower }, fiddle] };
  const sharper: Score = {
    ...before,
    lines: [{ ...pipes, setup: { ...lower, lowA: (pipes.setup.lowA + 4) as typeof pipes.setup.lowA } }, fiddle],
  };
  const sound = await playedWith(one, DRONES, [{ at: 4, enters: 4, score: sharper }]);
  expect(Math.abs(centsFrom(pipes.setup.lowA / 4, frequencyOf(between(sound, RATE, 2, 3.9), RATE)))).toBeLessThan(0.1);
  expect(Math.abs(centsFrom((pipes.setup.lowA + 4) / 4, frequencyOf(between(sound, RATE, 4.1, 6), RATE)))).toBeLessThan(0.1);
  expect(largestStep(between(sound, RATE, 3.95, 4.05))).toBeLessThanOrEqual(largestStep(between(sound, RATE, 4.1, 5)) * 1.01);
});

test("a loop goes over its seam as it goes over any bar line", async () => {
  const stretch = { from: { bar: 1, at: ticks(0) }, to: { bar: 1, at: ticks(3840) } };
  const native = new OfflineAudioContext(1, 9 * RATE, RATE);
  const graph = new BlendGraph(soundContextOf(native), native.destination, before, CHANTER);
  const schedule = scheduleOf(before, { ...AT_ONCE, stretch, passes: 2 });
  graph.follow(schedule, before, 0, timeOnClock(0, RATE));
  graph.writeUntil(9);
  const sound = (await native.startRendering()).getChannelData(0);
  const [span, ...others] = schedule.chanters[0]?.spans ?? [];
  expect(others).toEqual([]);
  const seam = (span?.start ?? 0) + 4;
  const steady = [seam - 1, seam + 1].map((at) => between(sound, RATE, at - 0.4, at + 0.4));
  const quietest = Math.min(...steady.map((note) => quietestWindow(note, RATE / 100)));
  expect(quietestWindow(between(sound, RATE, seam - 0.1, seam + 0.1), RATE / 100)).toBeGreaterThanOrEqual(quietest * 0.95);
});
