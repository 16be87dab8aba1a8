import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { loadPlayer } from "../../components/sound/load-player.ts";
import type { Player } from "../../components/sound/player.ts";
import { benchScore } from "../../scripts/bench/bench-score.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { USUAL_BLEND, withLevel } from "../../src/playback/blend.ts";
import { stretchOfBars, USUAL_SETTINGS } from "../../src/playback/play-settings.ts";
import type { Moment } from "../../src/score/address.ts";
import type { Score } from "../../src/score/score.ts";
import { decibels } from "../../src/units/decibels.ts";
import { ticks } from "../../src/units/ticks.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { type ClockWatch, lateOnes, type WrittenEvent, watchClock } from "../support/clock-watch.ts";

const BARS = 200;
const START: Moment = { bar: 0, at: ticks(0) };

let context: AudioContext | null = null;
let player: Player | null = null;
let watch: ClockWatch;
let moment: Moment = START;
const NativeAudioContext = window.AudioContext;

beforeEach(() => {
  watch = watchClock(() => context);
  window.AudioContext = class extends NativeAudioContext {
    constructor(options?: AudioContextOptions) {
      super(options);
      context = this;
    }
  };
});

afterEach(async () => {
  await player?.close();
  watch.end();
  vi.restoreAllMocks();
  window.AudioContext = NativeAudioContext;
  context = player = null;
});

async function playing(score: Score): Promise<Player> {
  const moved = (now: Moment | null) => {
    moment = now ?? START;
  };
  player = await loadPlayer(score, USUAL_BLEND, { moved, stopped: () => undefined });
  await player.play(START, { ...USUAL_SETTINGS, countIn: true, droneLead: "beat", tempoPercent: 150 });
  return player;
}

const pause = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** The sketch with another chanter note early in the next bar, and gracenotes gone from one after it. */
function edited(score: Score, turn: number): Score {
  const bar = Math.min(BARS - 1, moment.bar + 1);
  const address = (at: number) => ({ line: "pipes", bar, at: ticks(at) });
  const line = score.lines[0]?.id ?? "";
  const outcome = applyEdits(score, [
    { kind: "repitch", at: { ...address(960), line }, content: { kind: "pipes", note: NINE_NOTES[turn % NINE_NOTES.length] ?? "e" } },
    { kind: "gracenotes", at: { ...address(1920), line }, gracenotes: turn % 2 === 0 ? [] : ["high-g"] },
  ]);
  if (!outcome.ok) throw new RangeError("an edit was refused");
  return outcome.value;
}

/** For a message: the worst of those that came late. */
const worst = (late: readonly WrittenEvent[]) => late.toSorted((one, other) => one.at - one.said - (other.at - other.said)).slice(0, 3);

test("while 200 bars play and are edited every 150 ms, nothing is written for a time that is over", { timeout: PATIENCE }, async () => {
  let score = benchScore(BARS);
  const one = await playing(score);
  const edits = cases(24, 400);
  for (let turn = 0; turn < edits; turn += 1) {
    await pause(150);
    score = edited(score, turn);
    one.setScore(score);
    // Between them what else a hand does while it listens.
    if (turn % 6 === 5) one.setSettings({ ...USUAL_SETTINGS, tempoPercent: turn % 12 === 5 ? 140 : 150 });
    if (turn % 8 === 7) one.setBlend(withLevel(USUAL_BLEND, { kind: "master" }, { decibels: decibels(-18 - (turn % 3)), muted: false }));
    if (turn % 12 === 11) one.setSettings({ ...USUAL_SETTINGS, tempoPercent: 150, loop: stretchOfBars(score, 0, 7 + (turn % 2)) });
  }
  expect(one.playing).toBe(true);
  expect(moment.bar).toBeGreaterThan(0);
  expect(watch.events.length).toBeGreaterThan(edits * 50);
  expect(worst(lateOnes(watch.events))).toEqual([]);
});

test("in a page that is not in front everything is written a minute and more ahead, after an edit too", async () => {
  const score = benchScore(BARS);
  const one = await playing(score);
  /** How far ahead the last note is that was written since, in seconds. */
  const furthest = (since = 0) => {
    const notes = watch.events.slice(since).filter(({ by }) => by === "setValueAtTime");
    return Math.max(...notes.map(({ at }) => at)) - (context?.currentTime ?? 0);
  };
  expect(furthest()).toBeLessThan(20);
  vi.spyOn(document, "hidden", "get").mockReturnValue(true);
  document.dispatchEvent(new Event("visibilitychange"));
  expect(furthest()).toBeGreaterThan(60);
  // Nobody comes to write for a while: what the edit plans anew has to be all there already.
  const before = watch.events.length;
  one.setScore(edited(score, 1));
  await expect.poll(() => watch.events.length, { timeout: 5000 }).toBeGreaterThan(before);
  expect(furthest(before)).toBeGreaterThan(60);
  expect(worst(lateOnes(watch.events))).toEqual([]);
});

test("what is written for a time that is over is seen, and what is to happen at once is not taken for it", () => {
  const offline = new OfflineAudioContext(1, 48_000, 48_000);
  context = offline as unknown as AudioContext;
  const { gain } = new GainNode(offline);
  gain.setTargetAtTime(1, offline.currentTime, 0.1);
  gain.setValueAtTime(1, 1e-9);
  expect(watch.events.map(({ by, at }) => [by, at])).toEqual([["setValueAtTime", 1e-9]]);
  expect(lateOnes([...watch.events, { by: "start", at: 4.9, said: 5 }, { by: "start", at: 5, said: 5 }])).toEqual([
    { by: "start", at: 4.9, said: 5 },
  ]);
});
