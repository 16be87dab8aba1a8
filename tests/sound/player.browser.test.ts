import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { userEvent } from "vitest/browser";
import { loadPlayer } from "../../components/sound/load-player.ts";
import type { Player } from "../../components/sound/player.ts";
import { hertzOf } from "../../src/pipes/sounding.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import type { GroupToHear } from "../../src/playback/heard-group.ts";
import { USUAL_SETTINGS } from "../../src/playback/play-settings.ts";
import type { Moment } from "../../src/score/address.ts";
import { bpm } from "../../src/units/bpm.ts";
import { decibels } from "../../src/units/decibels.ts";
import { ticks } from "../../src/units/ticks.ts";
import { centsFrom, frequencyOf, peakOf } from "../support/measuring.ts";
import { pipeScore, secondFrame } from "../support/playback-scores.ts";
import { recorderAt } from "../support/sound-recorder.ts";
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
/** What goes to the loudspeakers. */
let last: AudioNode | null = null;
const contexts: BaseAudioContext[] = [];
const nativeConnect = AudioNode.prototype.connect;
const NativeAudioContext = window.AudioContext;

beforeEach(() => {
  // What goes to the loudspeakers goes to an analyser too.
  AudioNode.prototype.connect = function (this: AudioNode, target: AudioNode | AudioParam, ...rest: number[]) {
    if (target instanceof AudioDestinationNode) {
      last = this;
      heard = new AnalyserNode(this.context, { fftSize: 8192 });
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
  heard = last = null;
  contexts.length = 0;
  AudioNode.prototype.connect = nativeConnect;
  window.AudioContext = NativeAudioContext;
  document.body.replaceChildren();
});

/** 80 dB under full scale. */
const INAUDIBLE = 1e-4;

const samplesNow = (count: number) => {
  if (heard === null) return new Float32Array(count);
  const samples = new Float32Array(heard.fftSize);
  heard.getFloatTimeDomainData(samples);
  return samples.subarray(-count);
};

/** The peak of the last 20 ms. */
const peakNow = () => peakOf(samplesNow(1024));

/** What is heard now, in hertz. */
const pitchNow = () => frequencyOf(samplesNow(8192), heard?.context.sampleRate ?? 0);
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
  await pause(200);
  expect(peakNow()).toBeLessThan(INAUDIBLE);
  await expect.poll(peakNow, { timeout: 2000 }).toBe(0);
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

test("an edit while it plays is heard from the next bar on, without a gap", async () => {
  const [pipes] = score.lines;
  if (pipes?.kind !== "pipes") throw new RangeError("pipes first");
  const lower = {
    ...score,
    lines: [{ ...pipes, bars: pipes.bars.map(() => ({ kind: "pipes" as const, events: [pipeNote("low-a", 3840)] })) }],
  };
  const chanterAlone: Blend = { ...LOUD, drones: { pipes: { decibels: decibels(0), muted: true } } };
  let bar = -1;
  let quietest = Number.POSITIVE_INFINITY;
  await clicked(async () => {
    player = await loadPlayer(score, chanterAlone, {
      moved: (moment) => {
        bar = moment?.bar ?? -1;
        if (bar >= 1 && heard !== null) quietest = Math.min(quietest, peakNow());
      },
      stopped: () => undefined,
    });
    await player.play(START, { ...USUAL_SETTINGS, tempoPercent: 100 });
  });
  await expect.poll(() => bar, { timeout: 6000 }).toBe(1);
  expect(Math.abs(centsFrom(hertzOf(pipes.setup, "e"), pitchNow()))).toBeLessThan(2);
  player?.setScore(lower);
  await expect.poll(() => bar, { timeout: 6000 }).toBe(2);
  await pause(350);
  expect(Math.abs(centsFrom(hertzOf(pipes.setup, "low-a"), pitchNow()))).toBeLessThan(2);
  // 1024 samples hold some ten turns of the chanter; it peaks in every one of them.
  expect(quietest).toBeGreaterThan(0.05);
});

test("another tempo while it plays is heard at once and goes on from the same place", async () => {
  const seen: { readonly bar: number; readonly at: number; readonly time: number }[] = [];
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, {
      moved: (moment) => moment && seen.push({ ...moment, time: performance.now() }),
      stopped: () => undefined,
    });
    await player.play(START, USUAL_SETTINGS);
  });
  await expect.poll(() => seen.at(-1)?.bar ?? -1, { timeout: 6000 }).toBe(1);
  player?.setSettings({ ...USUAL_SETTINGS, tempoPercent: 50 });
  await pause(400);
  const [from, before] = [seen.at(-1), seen.length];
  await pause(1000);
  const to = seen.at(-1);
  const ticksOf = (place: typeof from) => (place?.bar ?? 0) * 3840 + (place?.at ?? 0);
  const perSecond = (1000 * (ticksOf(to) - ticksOf(from))) / ((to?.time ?? 0) - (from?.time ?? 0));
  expect(seen.length).toBeGreaterThan(before);
  // Half of 3,840 ticks a second; the audio clock moves in steps of a few milliseconds.
  expect(perSecond).toBeGreaterThan(1920 * 0.93);
  expect(perSecond).toBeLessThan(1920 * 1.07);
  for (const [index, place] of seen.entries()) if (index > 0) expect(ticksOf(place)).toBeGreaterThanOrEqual(ticksOf(seen[index - 1]) - 20);
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
  await pause(200);
  expect(peakNow()).toBeLessThan(INAUDIBLE);
  await expect.poll(peakNow, { timeout: 2000 }).toBe(0);
});

test("a group of gracenotes sounds once, and the next one waits until it is gone", async () => {
  const [pipes] = score.lines;
  if (pipes?.kind !== "pipes") throw new RangeError("no pipes");
  const group = (note: "e" | "low-a") =>
    ({ setup: pipes.setup, before: null, notes: [{ note, gracenotes: ["high-g"], seconds: 5 }] }) satisfies GroupToHear;
  await clicked(async () => {
    player = await loadPlayer(score, LOUD, { moved: () => undefined, stopped: () => undefined });
  });
  // Recorded on the audio thread: a busy page misses nothing of it.
  const recorder = await recorderAt(last as unknown as AudioNode);
  player?.soundGroup(group("e"));
  await expect.poll(() => soundsIn(recorder.heard(), recorder.sampleRate), { timeout: 8000 }).toBe(1);
  // Another one is asked for while it sounds: for a moment neither is heard.
  const letGo = player?.soundGroup(group("low-a"));
  await expect.poll(() => soundsIn(recorder.heard(), recorder.sampleRate), { timeout: 8000 }).toBe(2);
  letGo?.();
  await expect.poll(() => peakOf(recorder.heard().subarray(-1024)), { timeout: 8000 }).toBe(0);
  expect(soundsIn(recorder.heard(), recorder.sampleRate)).toBe(2);
});

/** How often sound began after at least 20 ms in which nothing could be heard. */
function soundsIn(samples: Float32Array, sampleRate: number): number {
  const least = Math.round(0.02 * sampleRate);
  let [count, silent] = [0, least];
  for (const sample of samples) {
    if (Math.abs(sample) < INAUDIBLE) silent += 1;
    else {
      if (silent >= least) count += 1;
      silent = 0;
    }
  }
  return count;
}

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
