import { expect, test } from "vitest";
import { barsFrom, barsOfStretch, momentAtSecond, placeAtSecond, secondAtMoment, timelineOf } from "../../src/playback/timeline.ts";
import { bpm } from "../../src/units/bpm.ts";
import { seconds } from "../../src/units/seconds.ts";
import { ticks } from "../../src/units/ticks.ts";
import { secondFrame } from "../support/playback-scores.ts";

const moment = (bar: number, at: number) => ({ bar, at: ticks(at) });
const START = moment(0, 0);

/** A repeat of bars 1 and 2 with two endings (2 and 3), and a bar of 6/8 at 120 dotted quarters a minute after it. */
const FRAMES = [
  secondFrame({ short: ticks(960) }),
  secondFrame({ repeatStart: true }),
  secondFrame({ ending: 1, repeatEnd: true }),
  secondFrame({ ending: 2 }),
  secondFrame({ meter: { beats: 6, unit: 8 }, tempo: { beat: ticks(1440), perMinute: bpm(120) } }),
];

const timeline = timelineOf(FRAMES, barsFrom(FRAMES, START), 100, seconds(2));

test("bars are played in order, repeats and endings taken, each as long as its tempo says", () => {
  expect(timeline.bars.map(({ bar, start }) => [bar, start])).toEqual([
    [0, 2],
    [1, 3],
    [2, 7],
    [1, 11],
    [3, 15],
    [4, 19],
  ]);
  expect(timeline.end).toBe(20);
});

test.each([
  [2, moment(0, 0)],
  [2.5, moment(0, 480)],
  [3, moment(1, 0)],
  [12.25, moment(1, 1200)],
  [15, moment(3, 0)],
  [19.5, moment(4, 1440)],
])("at %d s the moment heard is %o", (second, expected) => {
  expect(momentAtSecond(timeline, second)).toEqual(expected);
});

test("nothing is heard before the first bar or at the end", () => {
  expect([1.99, 20, 21].map((second) => momentAtSecond(timeline, second))).toEqual([null, null, null]);
});

test("a moment of a repeated bar is found in its first playing, and in its second when asked for", () => {
  expect(secondAtMoment(timeline, moment(1, 960))).toBe(4);
  expect(secondAtMoment(timeline, moment(1, 960), 1)).toBe(12);
  expect(secondAtMoment(timeline, moment(1, 960), 2)).toBeNull();
  expect(placeAtSecond(timeline, 12)).toEqual({ ...moment(1, 960), pass: 1 });
});

test("every written moment that is played is found again at its own second", () => {
  for (const { bar, from, to } of timeline.bars) {
    for (let at: number = from; at < to; at += 60) {
      const second = secondAtMoment(timeline, moment(bar, at));
      expect(second === null ? null : momentAtSecond(timeline, second)).toEqual(moment(bar, at));
    }
  }
});

test("playing from the middle of a bar begins there and goes on to the end", () => {
  const bars = barsFrom(FRAMES, moment(3, 1920));
  expect(bars).toEqual([
    { bar: 3, from: 1920, to: 3840 },
    { bar: 4, from: 0, to: 2880 },
  ]);
});

test("a stretch is played as written, without its repeats, as often as asked", () => {
  const once = barsOfStretch(FRAMES, { from: moment(1, 1920), to: moment(2, 960) }, 1);
  expect(once).toEqual([
    { bar: 1, from: 1920, to: 3840 },
    { bar: 2, from: 0, to: 960 },
  ]);
  expect(barsOfStretch(FRAMES, { from: moment(1, 1920), to: moment(2, 960) }, 3)).toEqual([...once, ...once, ...once]);
  expect(barsOfStretch(FRAMES, { from: moment(1, 0), to: moment(1, 0) }, 2)).toEqual([]);
});

test("40 percent of the tempo takes two and a half times as long, 150 percent two thirds", () => {
  const bars = barsFrom(FRAMES, START);
  expect(timelineOf(FRAMES, bars, 40, seconds(0)).end).toBeCloseTo(18 * 2.5, 9);
  expect(timelineOf(FRAMES, bars, 150, seconds(0)).end).toBeCloseTo(18 / 1.5, 9);
});
