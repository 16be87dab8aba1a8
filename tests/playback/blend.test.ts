import { expect, test } from "vitest";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import {
  type Blend,
  gainOf,
  heardGain,
  isSilent,
  LEAST_LEVEL,
  levelOf,
  MOST_LEVEL,
  placeOf,
  USUAL_BLEND,
  type Voice,
  voicesOf,
  withAlone,
  withDroneSilent,
  withLevel,
  withPlace,
} from "../../src/playback/blend.ts";
import type { Score } from "../../src/score/score.ts";
import { decibels } from "../../src/units/decibels.ts";
import { pipeScore, withFiddle } from "../support/playback-scores.ts";
import { pipeNote, rest } from "../support/written-music.ts";

const score = withFiddle(pipeScore([[pipeNote("e", 3840)]]), [[rest(3840)]]);
const chanter: Voice = { kind: "line", line: "pipes" };
const drones: Voice = { kind: "drones", line: "pipes" };
const fiddle: Voice = { kind: "line", line: "fiddle" };

test("every line, the drones, the click and the whole have a level, in score order", () => {
  expect(voicesOf(score).map(({ name }) => name)).toEqual(["Chanter", "Drones", "fiddle", "Click", "All together"]);
});

test("two sets of pipes are told apart by their names", () => {
  const [pipes] = score.lines;
  const two = { ...score, lines: [...score.lines, { ...pipes, id: "second", name: "Pipes 2", setup: defaultSetup("A") }] } as Score;
  expect(
    voicesOf(two)
      .map(({ name }) => name)
      .slice(0, 2),
  ).toEqual(["Pipes, chanter", "Pipes, drones"]);
});

test("it starts quiet: the whole at -18 dB, the click silent", () => {
  expect(levelOf(USUAL_BLEND, { kind: "master" }, score)).toEqual({ decibels: -18, muted: false });
  expect(isSilent(levelOf(USUAL_BLEND, { kind: "click" }, score))).toBe(true);
  expect([chanter, drones, fiddle].map((voice) => levelOf(USUAL_BLEND, voice, score).decibels)).toEqual([-6, -14, -8]);
});

test("setting one voice leaves the others alone", () => {
  const blend = withLevel(USUAL_BLEND, drones, { decibels: decibels(-20), muted: true });
  expect(levelOf(blend, drones, score)).toEqual({ decibels: -20, muted: true });
  expect(levelOf(blend, chanter, score)).toEqual(levelOf(USUAL_BLEND, chanter, score));
  expect(levelOf(USUAL_BLEND, drones, score).muted).toBe(false);
});

test("a level stays within -48 and 6 dB, and the bottom is silence", () => {
  const set = (value: number) => levelOf(withLevel(USUAL_BLEND, fiddle, { decibels: decibels(value), muted: false }), fiddle, score);
  expect([set(-100).decibels, set(20).decibels]).toEqual([LEAST_LEVEL, MOST_LEVEL]);
  expect(gainOf(set(-100))).toBe(0);
  expect(gainOf(set(-6))).toBeCloseTo(0.501187, 6);
  expect(gainOf(set(0))).toBe(1);
  expect(gainOf({ decibels: decibels(0), muted: true })).toBe(0);
});

test("pipes stand in the middle, other players to both sides in turn, until one is moved; nobody stands beyond the ends", () => {
  expect([chanter, drones, fiddle].map((voice) => placeOf(USUAL_BLEND, voice, score))).toEqual([0, 0, -0.35]);
  const moved = withPlace(USUAL_BLEND, fiddle, 3);
  expect(placeOf(moved, fiddle, score)).toBe(1);
  expect(placeOf(moved, chanter, score)).toBe(0);
});

test("while some are heard alone the others are silent, the whole is not, and muted stays muted", () => {
  const alone = withAlone(USUAL_BLEND, fiddle, true);
  const heard = (blend: Blend) => [chanter, drones, fiddle].map((voice) => heardGain(blend, voice, score) > 0);
  expect(heard(alone)).toEqual([false, false, true]);
  expect(heardGain(alone, { kind: "master" }, score)).toBeGreaterThan(0);
  expect(heard(withAlone(alone, drones, true))).toEqual([false, true, true]);
  expect(heard(withAlone(alone, fiddle, false))).toEqual([true, true, true]);
  expect(heard(withLevel(alone, fiddle, { decibels: decibels(0), muted: true }))).toEqual([false, false, false]);
});

test("one drone is silenced by its place and heard again, the others untouched", () => {
  const silent = withDroneSilent(withDroneSilent(USUAL_BLEND, "pipes", 2, true), "pipes", 0, true);
  expect([...(silent.silentDrones.pipes ?? [])].sort()).toEqual([0, 2]);
  expect(withDroneSilent(silent, "pipes", 2, false).silentDrones.pipes).toEqual([0]);
});
