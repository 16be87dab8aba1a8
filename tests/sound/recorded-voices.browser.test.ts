import { expect, test } from "vitest";
import { renderOffline } from "../../components/sound/render-offline.ts";
import { PLAYERS, playerOf } from "../../src/ensemble/catalogue.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { spelledInKey } from "../../src/pitch/spelled-in-key.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { type InstrumentId, instrumentOf, notesOf } from "../../src/playback/samples.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import type { Score } from "../../src/score/score.ts";
import { decibels } from "../../src/units/decibels.ts";
import { hertz } from "../../src/units/hertz.ts";
import { between, centsFrom, effectiveValue, firstHeard, largestStep, peakOf } from "../support/measuring.ts";
import { pipeScore, secondFrame, withPlayer } from "../support/playback-scores.ts";
import { concertNote, rest } from "../support/written-music.ts";

const RATE = 48_000;

/** The ear hears 10 cents; a recording is not steadier than this. */
const CENTS = 2;

const BAND_A = 443;
const full = { decibels: decibels(0), muted: false };
const ALONE: Blend = { ...USUAL_BLEND, master: full, room: null };

/** Each instrument there are recordings of, by one player who is heard on it. */
const HEARD_ON = [...new Map(PLAYERS.map(({ id }) => [instrumentOf(id), id]).reverse() as [InstrumentId, string][])];

/** Three pitches a player reaches, low, in the middle and high, none of them recorded as it is. */
function pitchesFor(player: string) {
  const { lowest, highest } = playerOf(player).range;
  const [from, to] = [semitoneOf(lowest), semitoneOf(highest)];
  const recorded = new Set(notesOf(instrumentOf(player)).map(({ key }) => key));
  return [0.15, 0.45, 0.8].map((share) => {
    let key = Math.round(from + share * (to - from));
    while (recorded.has(key)) key += 1;
    return spelledInKey(key, { tonic: "C", mode: "major" });
  });
}

function heldNotes(player: string): Score {
  const pitches = pitchesFor(player);
  const score = pipeScore(
    pitches.map(() => [rest(7680)]),
    { frames: pitches.map(() => secondFrame({ meter: { beats: 8, unit: 4 } })) },
  );
  return {
    ...withPlayer(
      score,
      pitches.map((pitch) => ({ kind: "own", events: [concertNote(pitch, 7680)] })),
      player,
    ),
    bandA: hertz(BAND_A),
  };
}

test.each(HEARD_ON)("the recorded %s plays held notes within 2 cents of the band's A 443", async (instrument, player) => {
  const score = heldNotes(player);
  const schedule = scheduleOf(score);
  const sound = await renderOffline(schedule, score, {
    sampleRate: RATE,
    seconds: schedule.end,
    blend: ALONE,
    limited: false,
    recorded: true,
  });
  const diesAway = notesOf(instrument).every(({ loop }) => loop === null);
  for (const { start, hertz: wanted, pitch } of schedule.players[0]?.sounds ?? []) {
    const [from, to] = diesAway ? [0.1, 1.3] : [0.9, 7.9];
    const note = between(sound, RATE, start + from, start + to);
    expect(effectiveValue(note), `${pitch} sounds`).toBeGreaterThan(0.005);
    const harmonics = instrument === "piano" ? [1] : [1, 2, 3, 4];
    expect(Math.abs(meanCents(note, wanted, harmonics)), `${pitch} of the ${instrument}`).toBeLessThan(CENTS);
  }
});

test.each(HEARD_ON)("a note of the recorded %s begins within one sample of its time", async (_, player) => {
  const pitch = pitchesFor(player)[1] as string;
  const score = withPlayer(pipeScore([[rest(3840)]]), [{ kind: "own", events: [rest(777), concertNote(pitch, 3063)] }], player);
  const schedule = scheduleOf(score, { tempoPercent: 97 });
  const start = schedule.players[0]?.sounds[0]?.start ?? 0;
  const sound = await renderOffline(schedule, score, {
    sampleRate: RATE,
    seconds: start + 0.2,
    blend: ALONE,
    limited: false,
    recorded: true,
  });
  const late = firstHeard(sound, 1e-9) - Math.round(start * RATE);
  expect(late).toBeGreaterThanOrEqual(0);
  expect(late).toBeLessThanOrEqual(1);
});

test("a held fiddle note goes round without a step larger than the bow's own", async () => {
  const score = heldNotes("fiddle");
  const schedule = scheduleOf(score);
  const sound = await renderOffline(schedule, score, {
    sampleRate: RATE,
    seconds: schedule.end,
    blend: ALONE,
    limited: false,
    recorded: true,
  });
  const first = schedule.players[0]?.sounds[0];
  const asRecorded = between(sound, RATE, (first?.start ?? 0) + 0.2, (first?.start ?? 0) + 0.6);
  const goneRound = between(sound, RATE, (first?.start ?? 0) + 0.6, (first?.stop ?? 0) - 0.05);
  expect(largestStep(goneRound)).toBeLessThan(largestStep(asRecorded) * 1.5);
  expect(effectiveValue(goneRound)).toBeGreaterThan(effectiveValue(asRecorded) * 0.7);
  expect(peakOf(goneRound)).toBeLessThan(peakOf(asRecorded) * 1.6);
});

test("a player without recordings at hand plays on with a synthetic voice", async () => {
  const score = heldNotes("trumpet-bb");
  const schedule = scheduleOf(score);
  const sound = await renderOffline(schedule, score, { sampleRate: RATE, seconds: 2, blend: ALONE, limited: false, recorded: false });
  expect(effectiveValue(between(sound, RATE, 0.5, 1.5))).toBeGreaterThan(0.005);
});

/** How far a sound's harmonics lie from where they should, cents, the strong and high ones counting more: each by counting its cycles. */
function meanCents(samples: Float32Array, wanted: number, harmonics: readonly number[]): number {
  const bands = harmonics.map((harmonic) => {
    const centre = harmonic * wanted;
    const band = passed(passed(passed(samples, centre), centre), centre).subarray(4800);
    return { centre, band, weight: effectiveValue(band) ** 2 * harmonic ** 2 };
  });
  // In what is weak, more of its neighbours is heard than of itself.
  const least = Math.max(...bands.map(({ weight }) => weight)) / 10;
  const strong = bands.filter(({ weight }) => weight >= least);
  const weights = strong.reduce((sum, { weight }) => sum + weight, 0);
  return strong.reduce((sum, { centre, band, weight }) => sum + weight * centsFrom(centre, cyclesASecond(band)), 0) / weights;
}

/** Upward crossings of zero, counted and timed between the first and the last. */
function cyclesASecond(samples: Float32Array): number {
  const crossings: number[] = [];
  for (let at = 1; at < samples.length; at += 1) {
    const [before, now] = [samples[at - 1] as number, samples[at] as number];
    if (before < 0 && now >= 0) crossings.push(at - now / (now - before));
  }
  return ((crossings.length - 1) * RATE) / ((crossings.at(-1) as number) - (crossings[0] as number));
}

/** A narrow band-pass. Source: R. Bristow-Johnson, Cookbook formulae for audio equalizer biquad filters (constant peak gain). */
function passed(samples: Float32Array, centre: number): Float32Array {
  const turn = (2 * Math.PI * centre) / RATE;
  const alpha = Math.sin(turn) / (2 * 10);
  const [a0, a1, a2] = [1 + alpha, -2 * Math.cos(turn), 1 - alpha];
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  return samples.map((x) => {
    const y = (alpha * x - alpha * x2 - a1 * y1 - a2 * y2) / a0;
    [x2, x1, y2, y1] = [x1, x, y1, y];
    return y;
  });
}
