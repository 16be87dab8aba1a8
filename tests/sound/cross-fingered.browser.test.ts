import { expect, test } from "vitest";
import { renderOffline } from "../../components/sound/render-offline.ts";
import { CHANTER_NOTES, type ChanterNote } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { hertzOf } from "../../src/pipes/sounding.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import { decibels } from "../../src/units/decibels.ts";
import { between, effectiveValue, loudnessAround } from "../support/measuring.ts";
import { pipeScore } from "../support/playback-scores.ts";
import { pipeNote } from "../support/written-music.ts";

const RATE = 48_000;
const full = { decibels: decibels(0), muted: false };
const CHANTER: Blend = { ...USUAL_BLEND, lines: { pipes: full }, drones: { pipes: { ...full, muted: true } }, master: full, room: null };
const SPEAKING = defaultCrossFingerings(["c-natural", "f-natural", "high-g-sharp"]);

function setupWith(level: number, dullness: number): PipeSetup {
  return { ...defaultSetup("Bb"), crossFingerings: SPEAKING.map((one) => ({ ...one, level: decibels(level), dullness })) };
}

interface Heard {
  /** Effective value, decibels. */
  readonly level: number;
  /** Where the middle of its harmonics lies, weighed by their power: 1 is the fundamental. */
  readonly brightness: number;
}

async function heard(setup: PipeSetup, note: ChanterNote): Promise<Heard> {
  const score = pipeScore([[pipeNote(note, 3840)]], { setup });
  const schedule = scheduleOf(score, { droneLead: "beat" });
  const sound = await renderOffline(schedule, score, { sampleRate: RATE, seconds: 3, blend: CHANTER, limited: false });
  const held = between(sound, RATE, 2, 2.5);
  const powers = Array.from(
    { length: 16 },
    (_, index) => (loudnessAround(held, RATE, hertzOf(setup, note) * (index + 1), 0.1, 0.1)[0] as number) ** 2,
  );
  const all = powers.reduce((sum, power) => sum + power, 0);
  return {
    level: 20 * Math.log10(effectiveValue(held)),
    brightness: powers.reduce((sum, power, index) => sum + power * (index + 1), 0) / all,
  };
}

const PAIRS = [
  ["c-natural", "c"],
  ["f-natural", "f"],
  ["high-g-sharp", "high-g"],
] as const;

test.each(PAIRS)("%s is as much softer than %s as the setup says", async (crossed, plain) => {
  const [alike, softer, beside] = await Promise.all([
    heard(setupWith(0, 0), crossed),
    heard(setupWith(-4, 0), crossed),
    heard(setupWith(-4, 0), plain),
  ]);
  expect(alike.level - beside.level).toBeCloseTo(0, 1);
  expect(alike.level - softer.level).toBeCloseTo(4, 2);
});

test.each(PAIRS)(
  "%s is the duller against %s the more of it the setup says, at the same strength within 1.5 dB",
  async (crossed, plain) => {
    const [beside, ...heards] = await Promise.all([
      heard(setupWith(0, 0), plain),
      ...[0, 3, 6, 10].map((dullness) => heard(setupWith(0, dullness), crossed)),
    ]);
    const brightness = heards.map((one) => one.brightness);
    expect(brightness[0]).toBeCloseTo(beside.brightness, 1);
    expect(brightness).toEqual(brightness.toSorted((one, other) => other - one));
    expect((brightness[0] as number) - (brightness[3] as number)).toBeGreaterThan(0.3);
    for (const { level } of heards) expect(Math.abs(level - beside.level)).toBeLessThan(1.5);
  },
);

test("from low G to high A the notes stay within 3 dB of one another, and the low ones are the brighter", async () => {
  const setup = setupWith(0, 0);
  const notes = await Promise.all(CHANTER_NOTES.map((note) => heard(setup, note)));
  const levels = notes.map(({ level }) => level);
  expect(Math.max(...levels) - Math.min(...levels)).toBeLessThan(3);
  expect(notes[0]?.brightness ?? 0).toBeGreaterThan(notes.at(-1)?.brightness ?? 0);
});
