import { readdirSync, readFileSync, statSync } from "node:fs";
import { expect, test } from "vitest";
import { PLAYERS } from "../../src/ensemble/catalogue.ts";
import { equalHertz } from "../../src/pitch/reference-pitch.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { spelledInKey } from "../../src/pitch/spelled-in-key.ts";
import { instrumentOf, notesOf, RECORDED_RATE, recordedHertz, sampleAt } from "../../src/playback/samples.ts";
import { centsOfRatio } from "../../src/units/cents.ts";
import { hertz } from "../../src/units/hertz.ts";

const FOLDER = new URL("../../components/sound/samples/", import.meta.url);
const INSTRUMENTS = readdirSync(FOLDER).flatMap((name) => (name.endsWith(".mp3") ? [name.slice(0, -4)] : [])) as ReturnType<
  typeof instrumentOf
>[];

test("every player is heard on an instrument whose recordings lie in the folder, with their licence, in 3 MB at most", () => {
  for (const { id } of PLAYERS) expect(INSTRUMENTS, id).toContain(instrumentOf(id));
  const bytes = INSTRUMENTS.reduce((sum, name) => sum + statSync(new URL(`${name}.mp3`, FOLDER)).size, 0);
  expect(bytes).toBeLessThan(3_000_000);
  expect(readFileSync(new URL("LICENCE", FOLDER), "utf8")).toMatch(/permission notice shall be\s+included/);
});

test("over every player's range the nearest recording, brought to pitch, sounds that pitch, at most 15 semitones from its own", () => {
  for (const { id, range } of PLAYERS) {
    for (let key = semitoneOf(range.lowest); key <= semitoneOf(range.highest); key++) {
      const wanted = equalHertz(spelledInKey(key, { tonic: "C", mode: "major" }), hertz(440));
      const { note, rate } = sampleAt(instrumentOf(id), wanted);
      expect(recordedHertz(note) * rate).toBeCloseTo(wanted, 6);
      expect(Math.abs(centsOfRatio(rate)), `${id} ${key}`).toBeLessThan(1500);
    }
  }
});

test("no pitched recording lies more than 15 cents from its key, notes do not overlap, and loops lie inside them", () => {
  for (const name of INSTRUMENTS) {
    let end = 0;
    for (const { cents, at, length, loop } of notesOf(name)) {
      expect(Math.abs(cents), name).toBeLessThan(15);
      expect(at).toBeGreaterThan(end);
      end = at + length;
      if (loop === null) continue;
      expect(loop[0]).toBeGreaterThan(0.4 * RECORDED_RATE);
      expect(loop[1] - loop[0]).toBeGreaterThan(0.3 * RECORDED_RATE);
      expect(loop[1]).toBeLessThanOrEqual(length);
    }
  }
});
