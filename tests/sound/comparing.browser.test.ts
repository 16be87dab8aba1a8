import { afterEach, beforeEach, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { loadPlayer } from "../../components/sound/load-player.ts";
import type { Player } from "../../components/sound/player.ts";
import { auditionsAt } from "../../src/arranging/auditions.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import { hertzOf } from "../../src/pipes/sounding.ts";
import { inCompany } from "../../src/playback/audition-company.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { USUAL_SETTINGS } from "../../src/playback/play-settings.ts";
import type { Moment } from "../../src/score/address.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { cents } from "../../src/units/cents.ts";
import { decibels } from "../../src/units/decibels.ts";
import { ticks } from "../../src/units/ticks.ts";
import { between, firstHeard, largestJump, loudnessAround, peakOf, quietestWindow } from "../support/measuring.ts";
import { pipeScore, secondFrame } from "../support/playback-scores.ts";
import { recorderAt, type SoundRecorder } from "../support/sound-recorder.ts";
import { pipeNote } from "../support/written-music.ts";

const START: Moment = { bar: 0, at: ticks(0) };

/** A beat lasts half a second. */
const BEAT = 0.5;
const held = pipeScore([[pipeNote("c", 3840)]], { frames: [secondFrame({ tempo: { beat: ticks(960), perMinute: bpm(60 / BEAT) } })] });
const LOOP = { from: START, to: { bar: 0, at: ticks(3840) } };

/** The pipes alone and nothing round them, so that every dip and every jump is the chanter's. */
const CHANTER: Blend = {
  ...USUAL_BLEND,
  master: { decibels: decibels(-6), muted: false },
  drones: { pipes: { decibels: decibels(0), muted: true } },
  room: null,
};

/** No change makes a jump from one sample to the next that is larger than this share of the peak; notes that change may bend the wave. */
const JUMP = 0.01;

/** Windows of 10 ms hold five turns of the chanter and more: only a new strike would be a hole in one. */
const WINDOW = 0.01;

const versions = (auditionsAt(held, { line: "pipes", ...START }).offers.find(({ kind }) => kind === "substitute")?.versions ?? []).map(
  ({ edits }): Score => {
    const outcome = applyEdits(held, edits);
    if (!outcome.ok) throw new RangeError(outcome.reason);
    return outcome.value;
  },
);
const [plain, natural] = versions as [Score, Score];

const pipesOf = (score: Score) => pipeLines(score)[0] as PipeLine;
const pause = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

let player: Player | null = null;
let recorder: SoundRecorder | null = null;
/** What goes to the loudspeakers. */
let last: AudioNode | null = null;
const nativeConnect = AudioNode.prototype.connect;

beforeEach(() => {
  AudioNode.prototype.connect = function (this: AudioNode, target: AudioNode | AudioParam, ...rest: number[]) {
    if (target instanceof AudioDestinationNode) last = this;
    return (nativeConnect as (target: AudioNode | AudioParam, ...rest: number[]) => AudioNode).call(this, target, ...rest);
  } as typeof nativeConnect;
});

afterEach(async () => {
  recorder?.end();
  await player?.close();
  player = recorder = last = null;
  AudioNode.prototype.connect = nativeConnect;
  document.body.replaceChildren();
});

/** Plays a score in a loop, from the press of a button, and records all of it. */
async function looped(score: Score, blend: Blend): Promise<Player> {
  const button = document.body.appendChild(document.createElement("button"));
  button.textContent = "Play";
  const made = new Promise<Player>((resolve, reject) =>
    button.addEventListener("click", () =>
      loadPlayer(score, blend, { moved: () => undefined, stopped: () => undefined }).then(resolve, reject),
    ),
  );
  await userEvent.click(button);
  const playing = await made;
  player = playing;
  recorder = await recorderAt(last as unknown as AudioNode);
  await playing.play(START, { ...USUAL_SETTINGS, loop: LOOP });
  await expect.poll(heardSeconds, { timeout: 6000 }).toBeGreaterThan(0.6);
  return playing;
}

/** What has been recorded from the chanter's first sound on. */
function music(): { readonly sound: Float32Array; readonly rate: number } {
  if (recorder === null) throw new RangeError("Nothing is recorded.");
  const sound = recorder.heard();
  const first = firstHeard(sound, 1e-4);
  return { sound: first === -1 ? sound.subarray(0, 0) : sound.subarray(first), rate: recorder.sampleRate };
}

function heardSeconds(): number {
  const { sound, rate } = music();
  return sound.length / rate;
}

/** When a pitch is heard first (half as loud as it is at the most), in seconds from the first sound. */
function comesAt(hertz: number): number {
  const [hop, window] = [0.002, 0.08];
  const { sound, rate } = music();
  const loudness = loudnessAround(sound, rate, hertz, window, hop);
  const most = Math.max(...loudness);
  return loudness.findIndex((value) => value > most / 2) * hop + window / 2;
}

test("another version is heard from the next beat on: C natural comes within 10 ms of it, the chanter neither dips nor jumps, and it is told where", async () => {
  const playing = await looped(plain, CHANTER);
  const asked = heardSeconds();
  const told = playing.hear(natural, CHANTER, "beat");
  await expect.poll(heardSeconds, { timeout: 6000 }).toBeGreaterThan(asked + 2 * BEAT + 0.3);
  const { sound, rate } = music();
  const came = comesAt(hertzOf(pipesOf(natural).setup, "c-natural"));
  // The strike-in takes 12 ms, so the first sound lies a few milliseconds before all of it.
  expect(Math.abs(came - Math.round(came / BEAT) * BEAT)).toBeLessThan(0.01);
  expect(came).toBeGreaterThan(asked);
  expect(came).toBeLessThan(asked + BEAT + 0.35);
  expect(told).toEqual({ bar: 0, at: 960 * (Math.round(came / BEAT) % 4) });
  const around = between(sound, rate, came - 0.2, came + 0.2);
  expect(largestJump(around) / peakOf(around)).toBeLessThan(JUMP);
  const usual = quietestWindow(between(sound, rate, 0.1, 0.5), WINDOW * rate);
  const level = 10 ** ((pipesOf(natural).setup.crossFingerings.find(({ note }) => note === "c-natural")?.level ?? 0) / 20);
  // Another wave has its own quietest window: what would show is a hole.
  expect(quietestWindow(between(sound, rate, 0.1, came + 0.3), WINDOW * rate)).toBeGreaterThan(usual * level * 0.7);
});

test("whoever asks again before the beat gets the last version asked for, on that beat, and nothing of the one in between", async () => {
  const playing = await looped(plain, CHANTER);
  const told = playing.hear(natural, CHANTER, "beat");
  expect(playing.hear(plain, CHANTER, "beat")).toEqual(told);
  const asked = heardSeconds();
  await expect.poll(heardSeconds, { timeout: 6000 }).toBeGreaterThan(asked + 3 * BEAT);
  const { sound, rate } = music();
  const loudest = (score: Score, note: "c" | "c-natural") =>
    Math.max(...loudnessAround(between(sound, rate, 0.2, asked + 2 * BEAT), rate, hertzOf(pipesOf(score).setup, note), 0.2, 0.02));
  // Windows of 0.2 s tell the two apart by more than 30 dB.
  expect(loudest(natural, "c-natural")).toBeLessThan(loudest(plain, "c") / 30);
});

test("a cross-fingering set while it sounds, in cents, loudness and dullness by turns, is heard within 0.3 s and never jumps or stops", async () => {
  const playing = await looped(natural, CHANTER);
  const pipes = pipesOf(natural);
  const from = heardSeconds();
  let set = natural;
  for (let step = 1; step <= 24; step += 1) {
    const change = [{ cents: cents(300 + 2 * step) }, { level: decibels(-step / 4) }, { dullness: step / 4 }][step % 3];
    const setup = withCrossFingering(pipesOf(set).setup, "c-natural", change ?? {});
    set = { ...natural, lines: [{ ...pipes, setup }] };
    playing.hear(set, CHANTER, "soon");
    await pause(40);
  }
  const over = heardSeconds();
  await expect.poll(heardSeconds, { timeout: 6000 }).toBeGreaterThan(over + 1);
  const { sound, rate } = music();
  const whole = between(sound, rate, from, over + 0.9);
  expect(largestJump(whole) / peakOf(whole)).toBeLessThan(JUMP);
  const quietest = (from: number, to: number) => quietestWindow(between(sound, rate, from, to), WINDOW * rate);
  expect(quietest(from, over + 0.9)).toBeGreaterThan(0.8 * Math.min(quietest(0.1, from), quietest(over + 0.3, over + 0.9)));
  const settled = between(sound, rate, over + 0.3, over + 0.9);
  const loudnessOf = (score: Score) => Math.max(...loudnessAround(settled, rate, hertzOf(pipesOf(score).setup, "c-natural"), 0.5, 0.05));
  expect(loudnessOf(set)).toBeGreaterThan(10 * loudnessOf(natural));
});

test("with the chord the piano joins, and the chanter under it goes on as loud as it was", async () => {
  // An F chord has no partial within 25 Hz of the chanter's D.
  const chords = { ...plain, frames: plain.frames.map((frame) => ({ ...frame, chords: [{ at: ticks(0), symbol: "F" }] })) };
  const drones = inCompany(chords, "drones");
  const playing = await looped(drones, CHANTER);
  expect(playing.hear(inCompany(chords, "chord"), CHANTER, "beat")).not.toBeNull();
  const asked = heardSeconds();
  await expect.poll(heardSeconds, { timeout: 9000 }).toBeGreaterThan(asked + 5 * BEAT);
  const { sound, rate } = music();
  const [own, root] = [hertzOf(pipesOf(plain).setup, "c"), 440 * 2 ** ((65 - 69) / 12)];
  const loudest = (hertz: number, from: number, to: number) =>
    Math.max(...loudnessAround(between(sound, rate, from, to), rate, hertz, 0.2, 0.02));
  expect(loudest(root, asked, asked + 5 * BEAT)).toBeGreaterThan(10 * loudest(root, 0.1, 0.5));
  const chanter = loudnessAround(between(sound, rate, 0.1, asked + 5 * BEAT), rate, own, 0.2, 0.02);
  expect(Math.min(...chanter)).toBeGreaterThan(0.8 * Math.max(...chanter));
});
