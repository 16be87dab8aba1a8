import { expect, test } from "vitest";
import { type ChunkOptions, renderedFrames, renderedPieces } from "../../components/sound/render-chunks.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import type { Score } from "../../src/score/score.ts";
import { decibels } from "../../src/units/decibels.ts";
import { effectiveValue, largestStep, peakOf } from "../support/measuring.ts";
import { pipeScore, withFiddle } from "../support/playback-scores.ts";
import { concertNote, gracedNote, pipeNote, rest } from "../support/written-music.ts";

const level = (value: number) => ({ decibels: decibels(value), muted: false });
const BLEND: Blend = { ...USUAL_BLEND, click: level(-12), master: level(-6) };

/** Four bars of a second a quarter: gracenotes, a cut-off and a strike-in, a fiddle note held over every seam, chords, rests. */
const score = withFiddle(
  pipeScore([
    [pipeNote("low-a", 1920, { strikeIn: true }), gracedNote(["high-g", "d", "e"], "e", 1920)],
    [gracedNote(["high-g", "e"], "f", 960), pipeNote("high-a", 960, { cutOff: true }), rest(1920)],
    [pipeNote("d", 3840, { strikeIn: true })],
    [pipeNote("high-g", 3840, { cutOff: true })],
  ]),
  [
    [concertNote("A4", 3840, { tied: true })],
    [concertNote("A4", 3840)],
    [concertNote("D4 A4", 3840)],
    [rest(1920), concertNote("Bb4", 1920)],
  ],
);

async function rendered(one: Score, options: Partial<ChunkOptions>): Promise<Float32Array> {
  const schedule = scheduleOf(one, { countIn: true });
  const whole = new Float32Array(renderedFrames(schedule, 48_000));
  let at = 0;
  for await (const { samples } of renderedPieces(schedule, one, { sampleRate: 48_000, channels: 1, blend: BLEND, ...options })) {
    whole.set(samples[0] as Float32Array, at);
    at += (samples[0] as Float32Array).length;
  }
  expect(at).toBe(whole.length);
  return whole;
}

/**
 * 46 dB under the peak. An oscillator's increments have 24 bits, so over 20 s it wanders by some ten-thousandths of a turn (measured: 2.3e-3 of the
 * peak); pieces begin exactly where the sum says. It is a difference in phase alone; nobody hears it.
 */
const ALIKE = 5e-3;

test.each([false, true])(
  "rendered in pieces of 1.7 seconds it is what it is in one piece, to 46 dB under its peak, and no seam steps further (limited: %s)",
  async (limited) => {
    const whole = await rendered(score, { limited, pieceSeconds: 60 });
    const pieces = await rendered(score, { limited, pieceSeconds: 1.7 });
    expect(effectiveValue(whole)).toBeGreaterThan(0.02);
    const difference = whole.map((value, index) => value - (pieces[index] as number));
    expect(peakOf(difference)).toBeLessThan(peakOf(whole) * ALIKE);
    expect(largestStep(pieces)).toBeLessThanOrEqual(largestStep(whole) * 1.001);
  },
);

test("progress rises to 1, a piece at a time, and no piece is longer than was asked", async () => {
  const schedule = scheduleOf(score);
  const progress: number[] = [];
  for await (const { samples, done } of renderedPieces(schedule, score, {
    sampleRate: 48_000,
    channels: 2,
    pieceSeconds: 5,
    recorded: false,
  })) {
    expect(samples).toHaveLength(2);
    expect(samples[0]?.length).toBeLessThanOrEqual(5 * 48_000);
    progress.push(done);
  }
  expect(progress.length).toBeGreaterThan(2);
  expect(progress).toEqual(progress.toSorted((one, other) => one - other));
  expect(progress.at(-1)).toBe(1);
});

test("it stops between two pieces when it is told to", async () => {
  const stop = new AbortController();
  const pieces = renderedPieces(scheduleOf(score), score, {
    sampleRate: 48_000,
    channels: 1,
    pieceSeconds: 2,
    recorded: false,
    signal: stop.signal,
  });
  await pieces.next();
  stop.abort();
  await expect(pieces.next()).rejects.toThrow(/abort/i);
});
