import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { userEvent } from "vitest/browser";
import { loadPlayer } from "../../components/sound/load-player.ts";
import type { Player } from "../../components/sound/player.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { USUAL_SETTINGS } from "../../src/playback/play-settings.ts";
import type { Moment } from "../../src/score/address.ts";
import { bpm } from "../../src/units/bpm.ts";
import { decibels } from "../../src/units/decibels.ts";
import { ticks } from "../../src/units/ticks.ts";
import { peakOf } from "../support/measuring.ts";
import { pipeScore, secondFrame } from "../support/playback-scores.ts";
import { pipeNote } from "../support/written-music.ts";

const START: Moment = { bar: 0, at: ticks(0) };

/** Four bars of E, a second each. */
const score = pipeScore(
  Array.from({ length: 4 }, () => [pipeNote("e", 3840)]),
  { frames: Array.from({ length: 4 }, () => secondFrame({ tempo: { beat: ticks(960), perMinute: bpm(240) } })) },
);
const LOUD: Blend = { ...USUAL_BLEND, master: { decibels: decibels(-6), muted: false } };

let player: Player | null = null;
let heard: AnalyserNode | null = null;
const contexts: BaseAudioContext[] = [];
const nativeConnect = AudioNode.prototype.connect;
const NativeAudioContext = window.AudioContext;

beforeEach(() => {
  // What goes to the loudspeakers goes to an analyser too.
  AudioNode.prototype.connect = function (this: AudioNode, target: AudioNode | AudioParam, ...rest: number[]) {
    if (target instanceof AudioDestinationNode) {
      heard = new AnalyserNode(this.context, { fftSize: 2048 });
      (nativeConnect as (target: AudioNode) => AudioNode).call(this, heard);
    }
    return (nativeConnect as (target: AudioNode | AudioParam, ...rest: number[]) => AudioNode).call(this, target, ...rest);
  } as typeof nativeConnect;
  window.AudioContext = class extends NativeAudioContext {
    constructor(options?: AudioContextOptions) {
      super(options);
      contexts.push(this);
    }
  };
});

afterEach(async () => {
  await player?.close();
  player = null;
  heard = null;
  contexts.length = 0;
  AudioNode.prototype.connect = nativeConnect;
  window.AudioContext = NativeAudioContext;
  document.body.replaceChildren();
});

const peakNow = () => {
  if (heard === null) return 0;
  const samples = new Float32Array(heard.fftSize);
  heard.getFloatTimeDomainData(samples);
  return peakOf(samples);
};
const pause = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Does something inside a click, as a browser wants it before anything may sound. */
async function clicked(act: () => Promise<void>): Promise<void> {
  const button = document.createElement("button");
  button.textContent = "Play";
  const done = new Promise<void>((resolve, reject) => button.addEventListener("click", () => act().then(resolve, reject)));
  document.body.append(button);
  await userEvent.click(button);
  await done;
  button.remove();
}

test("it sounds after play, tells where it is, and is silent a fifth of a second after stop", async () => {
  const moved: (Moment | null)[] = [];
  const stopped = vi.fn();
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, { moved: (moment) => moved.push(moment), stopped });
    await player.play(START, USUAL_SETTINGS);
  });
  await expect.poll(peakNow, { timeout: 4000 }).toBeGreaterThan(0.01);
  await expect.poll(() => moved.at(-1)?.bar ?? -1, { timeout: 4000 }).toBeGreaterThanOrEqual(1);
  const bars = moved.flatMap((moment) => moment?.bar ?? []);
  expect(bars).toEqual(bars.toSorted((a, b) => a - b));
  player?.stop();
  await pause(250);
  expect(peakNow()).toBe(0);
  expect(player?.playing).toBe(false);
  expect(stopped).toHaveBeenCalledTimes(1);
  expect(moved.at(-1)).toBeNull();
});

test("levels change while it plays: muted altogether it is silent, and it comes back", async () => {
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, { moved: () => undefined, stopped: () => undefined });
    await player.play(START, { ...USUAL_SETTINGS, loop: { from: START, to: { bar: 3, at: ticks(3840) } } });
  });
  await expect.poll(peakNow, { timeout: 4000 }).toBeGreaterThan(0.01);
  player?.setBlend({ ...LOUD, master: { ...LOUD.master, muted: true } });
  await expect.poll(peakNow, { timeout: 2000 }).toBeLessThan(1e-6);
  player?.setBlend(LOUD);
  await expect.poll(peakNow, { timeout: 2000 }).toBeGreaterThan(0.01);
});

test("it stops by itself at the end and says so", async () => {
  const stopped = vi.fn();
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, { moved: () => undefined, stopped });
    await player.play({ bar: 3, at: ticks(1920) }, { ...USUAL_SETTINGS, tempoPercent: 150 });
  });
  await expect.poll(() => stopped.mock.calls.length, { timeout: 4000 }).toBe(1);
  await pause(250);
  expect(peakNow()).toBe(0);
});

test("a stop asked for while the sound device wakes up is heeded", async () => {
  const stopped = vi.fn();
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, { moved: () => undefined, stopped });
    const playing = player.play(START, USUAL_SETTINGS);
    player.stop();
    await playing;
  });
  expect(player?.playing).toBe(false);
  await pause(300);
  expect(peakNow()).toBe(0);
});

test("a loop goes round, and goes on from where it is when the loop is taken away", async () => {
  const moved: number[] = [];
  const loop = { from: { bar: 1, at: ticks(0) }, to: { bar: 1, at: ticks(3840) } };
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, { moved: (moment) => moment && moved.push(moment.bar), stopped: () => undefined });
    await player.play(START, { ...USUAL_SETTINGS, tempoPercent: 150, loop });
  });
  await pause(2200);
  expect(new Set(moved)).toEqual(new Set([1]));
  player?.setSettings({ ...USUAL_SETTINGS, tempoPercent: 150 });
  await expect.poll(() => moved.at(-1), { timeout: 4000 }).toBe(2);
});

test("a touched note sounds until it is let go", async () => {
  let letGo = () => {};
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, { moved: () => undefined, stopped: () => undefined });
    const [pipes] = score.lines;
    if (pipes?.kind === "pipes") letGo = player.soundNote(pipes.setup, "high-a");
  });
  await expect.poll(peakNow, { timeout: 4000 }).toBeGreaterThan(0.01);
  letGo();
  await pause(300);
  expect(peakNow()).toBe(0);
});

test("no audio context is made before a player is asked for, no worker is made by it, nothing leaves the origin", async () => {
  const workers = vi.spyOn(window, "Worker");
  const blobs = vi.spyOn(URL, "createObjectURL");
  await import("../../components/sound/transport-bar.ts");
  await import("../../components/sound/blend-panel.ts");
  expect(contexts).toEqual([]);
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, { moved: () => undefined, stopped: () => undefined });
    await player.play(START, USUAL_SETTINGS);
  });
  expect(contexts).toHaveLength(1);
  player?.stop();
  expect(workers).not.toHaveBeenCalled();
  expect(blobs).not.toHaveBeenCalled();
  const origins = new Set(performance.getEntriesByType("resource").map(({ name }) => new URL(name).origin));
  expect([...origins]).toEqual([location.origin]);
});
