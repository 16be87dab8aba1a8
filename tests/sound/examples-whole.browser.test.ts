import { expect, test } from "vitest";
import { EXAMPLES } from "../../components/app/examples.ts";
import { type ChunkOptions, renderedFrames, renderedPieces } from "../../components/sound/render-chunks.ts";
import { type Blend, USUAL_BLEND, type Voice, voicesOf, withAlone, withLevel } from "../../src/playback/blend.ts";
import { recordingsOf } from "../../src/playback/recordings.ts";
import { type Schedule, scheduleOf } from "../../src/playback/schedule.ts";
import type { Frame } from "../../src/score/frame.ts";
import { concertLines, pipeLines } from "../../src/score/line-of.ts";
import { beatsOf, meterTicks } from "../../src/score/meter.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";
import { decibels } from "../../src/units/decibels.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { peakOf } from "../support/measuring.ts";

const RATE = 48_000;

/** -1 dB under full scale. */
const CEILING = 10 ** (-1 / 20);

interface Sounding {
  readonly score: Score;
  readonly schedule: Schedule;
}

const examples: readonly (readonly [string, Sounding])[] = await Promise.all(
  EXAMPLES.map(async ({ title, load }) => {
    const score = scoreFromSavedForm(await load());
    return [title, { score, schedule: scheduleOf(score, { countIn: true }) }] as const;
  }),
);

/** What a rendering comes to, piece by piece: its peak, and each piece's effective value in decibels. */
async function measured({ score, schedule }: Sounding, options: Partial<ChunkOptions>, most = Number.POSITIVE_INFINITY) {
  let [peak, frames] = [0, 0];
  const strengths: number[] = [];
  const quarter = RATE / 4;
  for await (const { samples } of renderedPieces(schedule, score, { sampleRate: RATE, channels: 1, ...options })) {
    for (const channel of samples) {
      peak = Math.max(peak, peakOf(channel));
      for (let from = 0; from + quarter <= channel.length; from += quarter)
        strengths.push(strength(channel.subarray(from, from + quarter)));
    }
    frames += samples[0]?.length ?? 0;
    if (frames >= most * RATE) break;
  }
  return { peak, frames, strengths };
}

function strength(samples: Float32Array): number {
  let sum = 0;
  for (const sample of samples) sum += sample * sample;
  return 10 * Math.log10(sum / samples.length + 1e-20);
}

test.each(examples)(
  "the mix of %s, rendered whole in pieces, stays 1 dB under full scale and is no whisper",
  { timeout: PATIENCE },
  async (_, example) => {
    const [mix] = recordingsOf(example.score, USUAL_BLEND);
    const { peak, frames } = await measured(example, { blend: mix?.blend ?? USUAL_BLEND, channels: cases(1, 2) as 1 | 2 });
    expect(frames).toBe(renderedFrames(example.schedule, RATE));
    expect(peak).toBeLessThanOrEqual(CEILING);
    expect(peak).toBeGreaterThan(0.2);
  },
);

test.each(examples)("%s with every level at the top stays 1 dB under full scale", { timeout: PATIENCE }, async (_, example) => {
  const top = { decibels: decibels(6), muted: false };
  const blend = voicesOf(example.score).reduce((sum: Blend, { voice }) => withLevel(sum, voice, top), USUAL_BLEND);
  const { peak } = await measured(example, { blend }, cases(15, 10_000));
  expect(peak).toBeLessThanOrEqual(CEILING);
  expect(peak).toBeGreaterThan(0.8);
});

test.each(examples)(
  "while %s plays at the usual levels the limiter takes less than 1 dB, and of its mix too",
  { timeout: PATIENCE },
  async (_, example) => {
    const [mix] = recordingsOf(example.score, USUAL_BLEND);
    for (const blend of [USUAL_BLEND, mix?.blend ?? USUAL_BLEND]) {
      const seconds = cases(15, 10_000);
      const free = await measured(example, { blend, limited: false }, seconds);
      const held = await measured(example, { blend, limited: true }, seconds);
      const taken = free.strengths.map((before, quarter) => (before < -60 ? 0 : before - (held.strengths[quarter] as number)));
      expect(Math.max(...taken.slice(1))).toBeLessThan(1);
    }
  },
);

test.each(examples)("in %s drones come between a bar and a beat before the chanter, and all are cut off together", (_, { score }) => {
  const [{ meter, tempo }] = score.frames as [Frame];
  const seconds = (ticks: number) => (ticks / tempo.beat) * (60 / tempo.perMinute);
  for (const [droneLead, lead] of [
    ["bar", seconds(meterTicks(meter))],
    ["beat", seconds(beatsOf(meter)[0] ?? 0)],
  ] as const) {
    const { chanters, drones } = scheduleOf(score, { droneLead });
    expect(drones.length).toBeGreaterThan(0);
    for (const { line, start, stop } of drones) {
      const spans = chanters.find((chanter) => chanter.line === line)?.spans ?? [];
      expect((spans[0]?.start ?? 0) - start).toBeCloseTo(lead, 6);
      expect(Math.abs(stop - (spans.at(-1)?.stop ?? 0))).toBeLessThan(0.1);
    }
  }
});

/** How strong a voice is by itself at the usual levels, in decibels: what three quarters of its sounding time stay under. */
async function strengthAlone(example: Sounding, voice: Voice): Promise<number> {
  const blend = { ...withAlone(USUAL_BLEND, voice, true), room: null };
  const { strengths } = await measured(example, { blend, limited: false }, 15);
  const sounding = strengths.filter((value) => value > -70).toSorted((one, other) => one - other);
  return sounding[Math.floor(sounding.length * 0.75)] ?? Number.NEGATIVE_INFINITY;
}

test.each(examples)(
  "in %s the chanter stands 1 to 6 dB over its drones, and nobody of the band more than 1 dB over the chanter or 6 dB under",
  { timeout: PATIENCE },
  async (_, example) => {
    for (const { id: line } of pipeLines(example.score)) {
      const chanter = await strengthAlone(example, { kind: "line", line });
      const drones = await strengthAlone(example, { kind: "drones", line });
      expect(chanter - drones).toBeGreaterThan(1);
      expect(chanter - drones).toBeLessThan(6);
      for (const player of concertLines(example.score)) {
        const over = (await strengthAlone(example, { kind: "line", line: player.id })) - chanter;
        expect(over, player.name).toBeLessThan(1);
        expect(over, player.name).toBeGreaterThan(-6);
      }
    }
  },
);
