import { expect, test } from "vitest";
import { renderedPieces } from "../../components/sound/render-chunks.ts";
import { type Blend, USUAL_BLEND, withDroneSilent, withPlace } from "../../src/playback/blend.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import { decibels } from "../../src/units/decibels.ts";
import { between, effectiveValue, peakOf } from "../support/measuring.ts";
import { pipeScore, withFiddle } from "../support/playback-scores.ts";
import { concertNote, pipeNote } from "../support/written-music.ts";

const RATE = 48_000;
const off = { decibels: decibels(0), muted: true };
const on = { decibels: decibels(0), muted: false };
const DRY: Blend = { ...USUAL_BLEND, master: on, room: null };
const FIDDLE: Blend = { ...DRY, lines: { pipes: off, fiddle: on }, drones: { pipes: off } };

const score = withFiddle(pipeScore([[pipeNote("e", 3840, { cutOff: true })]]), [[concertNote("A4", 3840)]]);
const schedule = scheduleOf(score);

/** The first piece in stereo. */
async function heard(blend: Blend): Promise<readonly [left: Float32Array, right: Float32Array]> {
  const pieces = renderedPieces(schedule, score, {
    sampleRate: RATE,
    channels: 2,
    blend,
    limited: false,
    recorded: false,
    pieceSeconds: 60,
  });
  const { value } = await pieces.next();
  const [left, right] = (value as { samples: readonly Float32Array[] }).samples;
  return [left as Float32Array, right as Float32Array];
}

const fiddle = { kind: "line", line: "fiddle" } as const;

test.each([
  [-1, 1, 0],
  [0, Math.SQRT1_2, Math.SQRT1_2],
  [1, 0, 1],
])("a voice placed at %d is heard with %d of its strength left and %d right", async (place, left, right) => {
  // Source: Web Audio API, StereoPannerNode, equal power for mono: cosine and sine of a quarter turn.
  const [one, other] = await heard(withPlace(FIDDLE, fiddle, place));
  const [, whole] = await heard(withPlace(FIDDLE, fiddle, 1));
  const at = (samples: Float32Array) => effectiveValue(between(samples, RATE, 5, 7));
  expect(at(one) / at(whole)).toBeCloseTo(left, 3);
  expect(at(other) / at(whole)).toBeCloseTo(right, 3);
});

test("one drone silent in the blend leaves the others as they are: what is missing is that drone", async () => {
  const drones: Blend = { ...DRY, lines: { pipes: off, fiddle: off }, drones: { pipes: on } };
  const [all] = await heard(drones);
  const [without] = await heard(withDroneSilent(drones, "pipes", 2, true));
  const [onlyBass] = await heard(withDroneSilent(withDroneSilent(drones, "pipes", 0, true), "pipes", 1, true));
  const missing = all.map((value, index) => value - (without[index] as number));
  expect(effectiveValue(onlyBass)).toBeGreaterThan(0.02);
  // From 0.2 s on: falling silent takes a moment.
  const difference = missing.map((value, index) => (index < 0.2 * RATE ? 0 : value - (onlyBass[index] as number)));
  expect(peakOf(difference)).toBeLessThan(1e-4);
});

test("the room answers after the last cut-off and has died away a second later; without it there is nothing", async () => {
  const end = schedule.drones[0]?.stop ?? 0;
  const tail = (samples: Float32Array) => peakOf(between(samples, RATE, end + 0.1, end + 0.4));
  const [room] = await heard({ ...DRY, room: decibels(-12), lines: { pipes: on, fiddle: off }, drones: { pipes: off } });
  const [dry] = await heard({ ...DRY, lines: { pipes: on, fiddle: off }, drones: { pipes: off } });
  expect(tail(dry)).toBe(0);
  expect(tail(room)).toBeGreaterThan(1e-4);
  expect(peakOf(between(room, RATE, end + 1.1, end + 1.4))).toBe(0);
});
