import { expect, test } from "vitest";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { droneHertz } from "../../src/pipes/drones.ts";
import { hertzOf } from "../../src/pipes/sounding.ts";
import type { GracenotePlacement } from "../../src/playback/gracenote-time.ts";
import { type Schedule, type ScheduleOptions, scheduleOf } from "../../src/playback/schedule.ts";
import type { PipeEvent } from "../../src/score/bar.ts";
import type { Score } from "../../src/score/score.ts";
import { hertz } from "../../src/units/hertz.ts";
import { seconds } from "../../src/units/seconds.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeScore, secondFrame, withFiddle, withPlayer } from "../support/playback-scores.ts";
import { concertNote, gracedNote, pipeNote, rest } from "../support/written-music.ts";

/* Everything here is at a quarter a second, and times are counted from where the music begins. */

/** The chanter's spans, each as its start, its stop, and its steps as `note@time` (a gracenote in brackets). */
function spansOf(schedule: Schedule): readonly (readonly [number, number, string])[] {
  const { start } = schedule.timeline;
  const time = (second: number) => Number((second - start).toFixed(6));
  return (schedule.chanters[0]?.spans ?? []).map((span) => [
    time(span.start),
    time(span.stop),
    span.steps.map(({ note, gracenote, at }) => `${gracenote ? `{${note}}` : note}@${time(at)}`).join(" "),
  ]);
}

const played = (bars: readonly (readonly PipeEvent[])[], options?: ScheduleOptions) => spansOf(scheduleOf(pipeScore(bars), options));

test("the chanter is one sound from its first note to its last, and a step for each note", () => {
  expect(played([[pipeNote("low-a", 960), pipeNote("b", 960), pipeNote("e", 1920)]])).toEqual([[0, 4, "low-a@0 b@1 e@2"]]);
});

test("each step sounds what the pipe setup says, in hertz", () => {
  const score = pipeScore([[pipeNote("low-g", 960), pipeNote("c", 960), pipeNote("high-a", 1920)]], { setup: defaultSetup(hertz(480)) });
  const [span] = scheduleOf(score).chanters[0]?.spans ?? [];
  expect(span?.steps.map((step) => step.hertz)).toEqual(
    ["low-g", "c", "high-a"].map((note) => hertzOf(defaultSetup(hertz(480)), note as "c")),
  );
  expect(span?.steps.map((step) => step.hertz)).toEqual([420, 600, 960]);
});

test("a rest inside a phrase holds the note before it", () => {
  expect(played([[pipeNote("e", 960), rest(960), pipeNote("f", 1920)]])).toEqual([[0, 4, "e@0 f@2"]]);
});

test("a rest after a cut-off is silent until the next strike-in", () => {
  const bars = [[pipeNote("e", 960, { cutOff: true }), rest(960), pipeNote("f", 1920, { strikeIn: true })]];
  expect(played(bars)).toEqual([
    [0, 1, "e@0"],
    [2, 4, "f@2"],
  ]);
});

test("pipes that can rest do so at every rest", () => {
  const bars = [[pipeNote("e", 960), rest(960), pipeNote("f", 1920)]];
  expect(spansOf(scheduleOf(pipeScore(bars, { setup: { ...defaultSetup("A"), canRest: true } })))).toEqual([
    [0, 1, "e@0"],
    [2, 4, "f@2"],
  ]);
});

test("the chanter is silent before its first note and after its last", () => {
  expect(played([[rest(3840)], [rest(960), pipeNote("d", 960), rest(1920)], [rest(3840)]])).toEqual([[5, 6, "d@5"]]);
});

test("tied notes are one step, over bar lines too", () => {
  expect(played([[pipeNote("d", 3840, { tied: true })], [pipeNote("d", 960), pipeNote("e", 2880)]])).toEqual([[0, 8, "d@0 e@5"]]);
});

test("gracenotes take 40 ms each from the note they stand before, on the beat", () => {
  expect(played([[pipeNote("b", 960), gracedNote(["low-g", "d", "c"], "d", 2880)]])).toEqual([
    [0, 4, "b@0 {low-g}@1 {d}@1.04 {c}@1.08 d@1.12"],
  ]);
});

test("a grip ends on the beat and takes its 120 ms from the note before; a doubling's 120 ms begin on the beat", () => {
  const bars = [[pipeNote("b", 960), gracedNote(["low-g", "d", "low-g"], "c", 960), gracedNote(["high-g", "b", "d"], "b", 1920)]];
  expect(played(bars)).toEqual([[0, 4, "b@0 {low-g}@0.88 {d}@0.92 {low-g}@0.96 c@1 {high-g}@2 {b}@2.04 {d}@2.08 b@2.12"]]);
});

test("a taorluath ends on the beat, 160 ms after it began", () => {
  const bars = [[pipeNote("b", 960), gracedNote(["low-g", "d", "low-g", "e"], "low-a", 2880)]];
  expect(played(bars)).toEqual([[0, 4, "b@0 {low-g}@0.84 {d}@0.88 {low-g}@0.92 {e}@0.96 low-a@1"]]);
});

test("a grip that nothing sounds before begins on the beat", () => {
  expect(played([[gracedNote(["low-g", "d", "low-g"], "c", 3840)]])).toEqual([[0, 4, "{low-g}@0 {d}@0.04 {low-g}@0.08 c@0.12"]]);
});

test("gracenotes together take no more than half of a short note", () => {
  expect(played([[gracedNote(["low-g", "d", "c", "d"], "d", 240), pipeNote("e", 3600)]])).toEqual([
    [0, 4, "{low-g}@0 {d}@0.03125 {c}@0.0625 {d}@0.09375 d@0.125 e@0.25"],
  ]);
});

test("gracenotes that come before the beat take their time from the note before, and the first note has none to take from", () => {
  const gracenotes = { each: seconds(0.05), placementOf: (): GracenotePlacement => "before-beat" };
  const bars = [[gracedNote(["high-g"], "b", 960), gracedNote(["low-g", "d"], "low-a", 2880)]];
  expect(played(bars, { gracenotes })).toEqual([[0, 4, "{high-g}@0 b@0.05 {low-g}@0.9 {d}@0.95 low-a@1"]]);
});

test("a note that is held through a rest gives its held time too", () => {
  const gracenotes = { each: seconds(0.1), placementOf: (): GracenotePlacement => "before-beat" };
  const bars = [[pipeNote("e", 120), rest(840), gracedNote(["high-g", "e", "f"], "f", 2880)]];
  expect(played(bars, { gracenotes })).toEqual([[0, 4, "e@0 {high-g}@0.7 {e}@0.8 {f}@0.9 f@1"]]);
});

test("playing from inside a note leaves its gracenotes out", () => {
  const bars = [[gracedNote(["high-g"], "b", 1920), pipeNote("e", 1920)]];
  expect(played(bars, { from: { bar: 0, at: ticks(960) } })).toEqual([[0, 3, "b@0 e@1"]]);
});

test("two tenors and a bass sound from a bar before the first strike-in to the last cut-off; a further unison drone stands 0.15 Hz sharper", () => {
  const score = pipeScore([
    [rest(1920), pipeNote("e", 960, { cutOff: true }), rest(960)],
    [pipeNote("f", 960, { cutOff: true }), rest(2880)],
  ]);
  const { drones, timeline } = scheduleOf(score);
  expect(timeline.start).toBe(2);
  expect(drones.map(({ name, start, stop }) => [name, start, stop])).toEqual([
    ["tenor", 0, 7],
    ["tenor", 0, 7],
    ["bass", 0, 7],
  ]);
  const setup = defaultSetup("Bb");
  const [tenor, bass] = [setup.drones[0], setup.drones[2]].map((drone) => droneHertz(setup, drone as (typeof setup.drones)[number]));
  expect(drones.map((drone) => drone.hertz)).toEqual([tenor, (tenor as number) + 0.15, bass]);
});

test("a corked drone does not sound, and pipes without a note leave their drones silent", () => {
  const setup = defaultSetup("Bb");
  const corked = { ...setup, drones: setup.drones.map((drone) => ({ ...drone, on: drone.name === "bass" })) };
  expect(scheduleOf(pipeScore([[pipeNote("e", 3840)]], { setup: corked })).drones.map(({ name }) => name)).toEqual(["bass"]);
  expect(scheduleOf(pipeScore([[rest(3840)]])).drones).toEqual([]);
});

test("the drones' lead is a bar at the start of the score and a beat inside it, unless asked for", () => {
  const score = pipeScore([[pipeNote("e", 3840)], [pipeNote("f", 3840)]]);
  const lead = (options: ScheduleOptions) => scheduleOf(score, options).timeline.start;
  expect(lead({})).toBe(4);
  expect(lead({ droneLead: "beat" })).toBe(1);
  expect(lead({ from: { bar: 1, at: ticks(0) } })).toBe(1);
  expect(lead({ from: { bar: 1, at: ticks(0) }, droneLead: "bar" })).toBe(4);
  expect(lead({ tempoPercent: 50 })).toBe(8);
});

test("a band player sounds in equal temperament at the band's A, ties joined, each pitch of a chord by itself", () => {
  const score: Score = {
    ...withFiddle(pipeScore([[rest(3840)], [rest(3840)]]), [
      [concertNote("A4", 960), rest(960), concertNote("C4 E4 G4", 1920, { tied: true })],
      [concertNote("E4 G4", 1920), concertNote("G4", 1920)],
    ]),
    bandA: hertz(442),
  };
  const sounds = scheduleOf(score).players[0]?.sounds ?? [];
  expect(sounds.map(({ start, stop, pitch }) => [pitch, start, stop])).toEqual([
    ["A4", 0, 1],
    ["C4", 2, 4],
    ["E4", 2, 6],
    ["G4", 2, 6],
    ["G4", 6, 8],
  ]);
  expect(sounds[0]?.hertz).toBe(442);
  expect(sounds[1]?.hertz).toBeCloseTo(442 * 2 ** (-9 / 12), 9);
});

test("a player who doubles the pipes sounds their concert pitches an octave below, at the band's pitch and not the chanter's", () => {
  const score = withPlayer(
    pipeScore([[pipeNote("low-a", 1920), pipeNote("c", 1920)]]),
    [{ kind: "doubling", of: "pipes", octaves: -1 }],
    "trumpet-bb",
  );
  const { players, timeline } = scheduleOf(score);
  expect(players[0]?.sounds.map(({ pitch, start }) => [pitch, start - timeline.start])).toEqual([
    ["Bb3", 0],
    ["D4", 2],
  ]);
  expect(players[0]?.sounds[1]?.hertz).toBeCloseTo(440 * 2 ** (-7 / 12), 9);
});

test.each([
  [
    "4/4",
    { beats: 4, unit: 4 },
    null,
    [
      [0, true],
      [1, false],
      [2, false],
      [3, false],
    ],
  ],
  [
    "6/8",
    { beats: 6, unit: 8 },
    null,
    [
      [0, true],
      [1.5, false],
    ],
  ],
  [
    "7/8",
    { beats: 7, unit: 8 },
    null,
    [
      [0, true],
      [1, false],
      [2, false],
    ],
  ],
  ["a pickup of a quarter in 4/4", { beats: 4, unit: 4 }, 960, [[0, false]]],
  [
    "a bar of 4/4 cut short after three quarters",
    { beats: 4, unit: 4 },
    2880,
    [
      [0, true],
      [1, false],
      [2, false],
    ],
  ],
] as const)("the click in %s falls on the beats", (_, meter, short, expected) => {
  const frames = [secondFrame({ meter, short: short === null ? null : ticks(short) })];
  const length = short ?? (meter.beats * 3840) / meter.unit;
  const { clicks, timeline } = scheduleOf(pipeScore([[pipeNote("e", length)]], { frames }));
  expect(clicks.map(({ at, downbeat }) => [at - timeline.start, downbeat])).toEqual(expected);
});

test("the count-in is a bar, and with a pickup the beats that the pickup's bar lacks as well", () => {
  const counted = (score: Score, options: ScheduleOptions = {}) => {
    const { clicks, timeline } = scheduleOf(score, { countIn: true, ...options });
    return clicks.filter(({ countIn }) => countIn).map(({ at, downbeat }) => `${at - timeline.start}${downbeat ? "!" : ""}`);
  };
  const plain = pipeScore([[pipeNote("e", 3840)]]);
  expect(counted(plain)).toEqual(["-4!", "-3", "-2", "-1"]);
  expect(counted(plain, { tempoPercent: 50 })).toEqual(["-8!", "-6", "-4", "-2"]);
  expect(counted(plain, { from: { bar: 0, at: ticks(1920) } })).toEqual(["-6!", "-5", "-4", "-3", "-2!", "-1"]);
  const pickup = pipeScore([[pipeNote("e", 960)], [pipeNote("f", 3840)]], { frames: [secondFrame({ short: ticks(960) }), secondFrame()] });
  expect(counted(pickup)).toEqual(["-7!", "-6", "-5", "-4", "-3!", "-2", "-1"]);
});

test("a looped stretch goes round without a break: the chanter sounds on over the seam", () => {
  const score = pipeScore([[pipeNote("e", 3840)], [pipeNote("f", 1920), pipeNote("d", 1920)]]);
  const stretch = { from: { bar: 1, at: ticks(0) }, to: { bar: 1, at: ticks(3840) } };
  expect(spansOf(scheduleOf(score, { stretch, passes: 2 }))).toEqual([[0, 8, "f@0 d@2 f@4 d@6"]]);
});

test("a loop of more passes begins with the loop of fewer", () => {
  const score = withFiddle(pipeScore([[gracedNote(["high-g"], "e", 1920), pipeNote("f", 1920)]]), [[concertNote("A4", 3840)]]);
  const stretch = { from: { bar: 0, at: ticks(960) }, to: { bar: 0, at: ticks(3840) } };
  const [few, many] = [3, 7].map((passes) => scheduleOf(score, { stretch, passes }));
  expect(many?.timeline.bars.slice(0, 3)).toEqual(few?.timeline.bars);
  expect(many?.chanters[0]?.spans[0]?.steps.slice(0, 6)).toEqual(few?.chanters[0]?.spans[0]?.steps);
  expect(many?.players[0]?.sounds.slice(0, 3)).toEqual(few?.players[0]?.sounds);
});

test("a tempo outside 40 to 150 percent is our own mistake", () => {
  const score = pipeScore([[pipeNote("e", 3840)]]);
  for (const tempoPercent of [39, 151, Number.NaN]) expect(() => scheduleOf(score, { tempoPercent })).toThrow(RangeError);
});
