import { expect, test } from "vitest";
import { timeOnClock } from "../../components/sound/audio-clock.ts";
import { BlendGraph } from "../../components/sound/blend-graph.ts";
import { renderedFrames, renderedPieces } from "../../components/sound/render-chunks.ts";
import { soundContextOf } from "../../components/sound/sound-context.ts";
import { SteadyTone } from "../../components/sound/steady-tone.ts";
import { type Blend, USUAL_BLEND, withAlone, withDroneSilent, withLevel, withPlace } from "../../src/playback/blend.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import { tuningTones } from "../../src/playback/tuning-tones.ts";
import type { Score } from "../../src/score/score.ts";
import { decibels } from "../../src/units/decibels.ts";
import { between, largestJump, peakOf } from "../support/measuring.ts";
import { pipeScore, withFiddle } from "../support/playback-scores.ts";
import { concertNote, pipeNote, rest } from "../support/written-music.ts";

const RATE = 48_000;
const full = { decibels: decibels(0), muted: false };
const BLEND: Blend = { ...USUAL_BLEND, master: full };

/** Everything holds one note for the whole time, low enough that none has a partial above 14 kHz: whatever is heard there comes of the change. */
const score = withFiddle(pipeScore([[pipeNote("low-a", 3840)], [pipeNote("low-a", 3840)]]), [
  [concertNote("F4", 3840, { tied: true })],
  [concertNote("F4", 3840)],
]);
const silent = withFiddle(pipeScore([[rest(3840)], [rest(3840)]]), [[rest(3840)], [rest(3840)]]);
const other = withFiddle(pipeScore([[pipeNote("e", 3840)], [pipeNote("low-g", 3840)]]), [
  [concertNote("F4", 3840)],
  [concertNote("Bb4", 3840)],
]);

/** When the change comes, at the start of one of the clock's blocks of 128 samples, and how long the sound is. */
const AT = (1406 * 128) / RATE;
const SECONDS = 6;

/** No change makes a jump from one sample to the next that is larger than this share of the peak (46 dB under it). */
const JUMP = 0.005;

interface Playing {
  readonly graph: BlendGraph;
  readonly context: OfflineAudioContext;
}

async function changed(blend: Blend, change: (playing: Playing) => void): Promise<readonly Float32Array[]> {
  const context = new OfflineAudioContext(2, SECONDS * RATE, RATE);
  const graph = new BlendGraph(soundContextOf(context), context.destination, score, blend);
  graph.follow(scheduleOf(score, { droneLead: "beat" }), score, 0, timeOnClock(0, RATE));
  graph.writeUntil(SECONDS);
  void context.suspend(AT).then(() => {
    change({ graph, context });
    void context.resume();
  });
  const buffer = await context.startRendering();
  return [buffer.getChannelData(0), buffer.getChannelData(1)];
}

/** The largest jump around a change, as a share of the peak before it or after it. */
function jump(sound: Float32Array): number {
  const peak = Math.max(...[between(sound, RATE, AT - 0.6, AT), between(sound, RATE, AT + 0.6, AT + 1.2)].map(peakOf));
  return largestJump(between(sound, RATE, AT - 0.1, AT + 0.4)) / peak;
}

const follows =
  (next: Score, enters = AT + 0.1, tempoPercent = 100) =>
  ({ graph }: Playing) => {
    const leaves = AT + 0.1;
    graph.follow(scheduleOf(next, { droneLead: "beat", tempoPercent }), next, enters, timeOnClock(leaves - enters, RATE));
    graph.writeUntil(SECONDS);
  };
const blends =
  (blend: Blend) =>
  ({ graph }: Playing) =>
    graph.setBlend(blend);
const chanter = { kind: "line", line: "pipes" } as const;
const fiddle = { kind: "line", line: "fiddle" } as const;
const muted = { ...full, muted: true };

const CHANGES: readonly (readonly [string, (playing: Playing) => void, Blend?])[] = [
  ["notes that are all taken away", follows(silent)],
  ["half the tempo", follows(score, (AT + 0.1 - 1) * 2 + 2, 50)],
  ["the chanter muted", blends(withLevel(BLEND, chanter, muted))],
  ["the chanter come back", blends(BLEND), withLevel(BLEND, chanter, muted)],
  ["the whole 12 dB softer", blends(withLevel(BLEND, { kind: "master" }, { decibels: decibels(-12), muted: false }))],
  ["the whole muted", blends(withLevel(BLEND, { kind: "master" }, muted))],
  ["the fiddle heard alone", blends(withAlone(BLEND, fiddle, true))],
  ["the fiddle from left to right", blends(withPlace(BLEND, fiddle, 1)), withPlace(BLEND, fiddle, -1)],
  ["the chanter from right to left", blends(withPlace(BLEND, chanter, -1)), withPlace(BLEND, chanter, 1)],
  ["a tenor drone silent", blends(withDroneSilent(BLEND, "pipes", 0, true))],
  ["the bass drone come back", blends(BLEND), withDroneSilent(BLEND, "pipes", 2, true)],
  ["no room any more", blends({ ...BLEND, room: null })],
  ["a loud room", blends({ ...BLEND, room: decibels(-6) }), { ...BLEND, room: null }],
  ["a stop", ({ graph }) => graph.fadeOut()],
];

test.each(CHANGES.map(([name, change, before = BLEND]) => [name, { change, before }] as const))(
  "%s: no jump from one sample to the next larger than 0.5 percent of the peak",
  async (_, { change, before }) => {
    for (const channel of await changed(before, change)) expect(jump(channel)).toBeLessThan(JUMP);
  },
);

test.each([false, true])(
  "rendered in pieces of a second, recorded fiddle and limiter %s, no seam jumps by more than that",
  async (asPlayed) => {
    const [pieces, whole] = await Promise.all([1, 60].map((pieceSeconds) => rendered(pieceSeconds, asPlayed)));
    const jumpsAt = (sound: Float32Array, seam: number) => {
      const around = between(sound, RATE, seam - 0.05, seam + 0.05);
      return largestJump(around) / peakOf(around);
    };
    // From 2 s on everybody holds; the drones alone sound before. A recording has some air of its own up there.
    for (let seam = 2; seam < SECONDS; seam += 1) {
      const own = asPlayed ? jumpsAt(whole as Float32Array, seam) : 0;
      expect(jumpsAt(pieces as Float32Array, seam) - own, `at ${seam} s`).toBeLessThan(JUMP);
    }
  },
);

async function rendered(pieceSeconds: number, asPlayed: boolean): Promise<Float32Array> {
  const schedule = scheduleOf(score, { droneLead: "beat" });
  const sound = new Float32Array(renderedFrames(schedule, RATE));
  let at = 0;
  const options = { sampleRate: RATE, channels: 1, blend: BLEND, recorded: asPlayed, limited: asPlayed } as const;
  for await (const { samples } of renderedPieces(schedule, score, { ...options, pieceSeconds })) {
    sound.set(samples[0] as Float32Array, at);
    at += samples[0]?.length ?? 0;
  }
  return sound;
}

test("notes that change under the playing position jump by less than 1 percent: the wave goes on from where it is, at another slope", async () => {
  for (const channel of await changed(BLEND, follows(other, 5.1))) expect(jump(channel)).toBeLessThan(2 * JUMP);
});

test.each(tuningTones(score))("a tuning tone ($name) comes and goes over the music as softly", async (tone) => {
  for (const channel of await changed(BLEND, ({ context }) => void new SteadyTone(context, context.destination, tone, 0.4)))
    expect(jump(channel)).toBeLessThan(JUMP);
  let held: SteadyTone | null = null;
  const letGo = await changed(BLEND, ({ context }) => {
    held = new SteadyTone(context, context.destination, tone, 0.4);
    void context.suspend(AT + 0.2).then(() => {
      held?.letGo();
      void context.resume();
    });
  });
  for (const channel of letGo) expect(jump(channel)).toBeLessThan(JUMP);
});

test("the same measure finds nothing where nothing changes, and a voice that is cut off between two samples", async () => {
  const [whole] = (await changed(BLEND, () => undefined)) as [Float32Array, Float32Array];
  expect(jump(whole)).toBeLessThan(JUMP / 5);
  const [without] = (await changed(withLevel(BLEND, fiddle, muted), () => undefined)) as [Float32Array, Float32Array];
  // A sixteenth of a turn further on each time: the fiddle is not at rest in all of these.
  const cuts = [0, 9, 18, 27, 36].map((later) => whole.map((value, at) => (at < AT * RATE + later ? value : (without[at] as number))));
  expect(Math.max(...cuts.map(jump))).toBeGreaterThan(10 * JUMP);
});
