import { expect, test } from "vitest";
import { renderOffline } from "../../components/sound/render-offline.ts";
import type { PlainNote } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { PublishedScale } from "../../src/pipes/pipe-setup.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import { decibels } from "../../src/units/decibels.ts";
import { beatsASecond, between, loudnessAround } from "../support/measuring.ts";
import { pipeScore, secondFrame, withFiddle } from "../support/playback-scores.ts";
import { concertNote, pipeNote } from "../support/written-music.ts";

const RATE = 48_000;
const full = { decibels: decibels(0), muted: false };
const off = { decibels: decibels(0), muted: true };
const DRY: Blend = { ...USUAL_BLEND, lines: { pipes: full, fiddle: full }, drones: { pipes: off }, master: full, room: null };

/**
 * Derived, for a low A of 466.16 Hz and a band at 440 in equal temperament: a twelfth of an octave counted from low A against the scale's ratio.
 * High G is two notes, by the scale: 7/4 and 9/5.
 */
const UNISONS: readonly (readonly [PlainNote, string, PublishedScale, number])[] = [
  ["c", "D5", "septimal", 4.6],
  ["f", "G5", "septimal", 7.1],
  ["high-g", "Ab5", "septimal", 14.8],
  ["high-g", "Ab5", "1991", 8.5],
];

test.each(UNISONS)("a held %s against the band's %s, in the %s scale, beats %d times a second", async (note, pitch, scale, beats) => {
  const setup = { ...defaultSetup("Bb"), scale: { kind: "published", name: scale } as const };
  const score = withFiddle(pipeScore([[pipeNote(note, 3840)]], { setup }), [[concertNote(pitch, 3840)]]);
  const schedule = scheduleOf(score, { droneLead: "beat" });
  const sound = await renderOffline(schedule, score, { sampleRate: RATE, seconds: schedule.end, blend: DRY, limited: false });
  const held = between(sound, RATE, 1.3, 4.9);
  const centre = schedule.chanters[0]?.spans[0]?.steps[0]?.hertz ?? 0;
  // Windows of 25 ms hear both fundamentals as one tone, and nothing of their octaves.
  expect(beatsASecond(loudnessAround(held, RATE, centre, 0.025, 0.004), 0.004)).toBeCloseTo(beats, 1);
});

test.each([0.15, 0.5])("two tenors set to beat %d times a second do so, and the bass does not", async (unisonBeat) => {
  const score = pipeScore([[pipeNote("e", 3840 * 5)]], { frames: [secondFrame({ meter: { beats: 20, unit: 4 } })] });
  const schedule = scheduleOf(score, { droneLead: "beat", unisonBeat });
  const blend = { ...DRY, lines: { pipes: off }, drones: { pipes: full } };
  const sound = await renderOffline(schedule, score, { sampleRate: 24_000, seconds: schedule.end, blend, limited: false });
  const loudnessOf = (hertz: number) => loudnessAround(between(sound, 24_000, 1, 20.8), 24_000, hertz, 0.2, 0.05);
  const [tenor, bass] = [schedule.drones[0]?.hertz ?? 0, schedule.drones[2]?.hertz ?? 0];
  const tenors = loudnessOf(tenor);
  expect(beatsASecond(tenors, 0.05)).toBeCloseTo(unisonBeat, 2);
  const level = loudnessOf(bass);
  expect(Math.max(...level) / Math.min(...level)).toBeLessThan(1.01);
});
