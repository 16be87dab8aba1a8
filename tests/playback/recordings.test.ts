import { expect, test } from "vitest";
import { heardGain, placeOf, USUAL_BLEND, type Voice, withAlone } from "../../src/playback/blend.ts";
import { type Recording, recordingFacts, recordingsOf } from "../../src/playback/recordings.ts";
import { pipeScore, withFiddle } from "../support/playback-scores.ts";
import { pipeNote, rest } from "../support/written-music.ts";

const alone = pipeScore([[pipeNote("e", 3840)]]);
const score = withFiddle(alone, [[rest(3840)]]);
const VOICES: readonly Voice[] = [
  { kind: "line", line: "pipes" },
  { kind: "drones", line: "pipes" },
  { kind: "line", line: "fiddle" },
  { kind: "click" },
];

const named = (name: string): Recording => {
  const found = recordingsOf(score, USUAL_BLEND).find((one) => one.name === name);
  if (found === undefined) throw new RangeError(name);
  return found;
};
const heard = ({ blend }: Recording) => VOICES.map((voice) => heardGain(blend, voice, score) > 0);

test("there are a mix, a play-along, a rehearsal mix, and a mono stem of chanter, drones, each player and the click", () => {
  expect(recordingsOf(score, USUAL_BLEND).map(({ name, channels }) => [name, channels])).toEqual([
    ["Mix", 2],
    ["Play-along, without the pipes", 2],
    ["Rehearsal, pipes left, band right", 2],
    ["Chanter", 1],
    ["Drones", 1],
    ["fiddle", 1],
    ["Click", 1],
  ]);
  expect(recordingsOf(alone, USUAL_BLEND).map(({ name }) => name)).toEqual(["Mix", "Chanter", "Drones", "Click"]);
});

test("a stem has its voice alone, 18 dB under full scale, in no room and unlimited, whatever is muted or heard alone in the blend", () => {
  const blend = withAlone(
    { ...USUAL_BLEND, lines: { fiddle: { decibels: USUAL_BLEND.master.decibels, muted: true } } },
    { kind: "click" },
    true,
  );
  const stems = recordingsOf(score, blend).filter(({ kind }) => kind === "stem");
  expect(stems.map(heard)).toEqual(VOICES.map((_, index) => VOICES.map((_, place) => place === index)));
  for (const [index, stem] of stems.entries()) {
    expect(heardGain(stem.blend, VOICES[index] as Voice, score)).toBe(1);
    expect(heardGain(stem.blend, { kind: "master" }, score)).toBeCloseTo(10 ** (-18 / 20), 9);
    expect([stem.limited, stem.blend.room]).toEqual([false, null]);
  }
});

test("the play-along has neither chanter nor drones; in the rehearsal mix pipes stand left and the band right", () => {
  expect(heard(named("Play-along, without the pipes"))).toEqual([false, false, true, false]);
  const { blend } = named("Rehearsal, pipes left, band right");
  expect(VOICES.slice(0, 3).map((voice) => placeOf(blend, voice, score))).toEqual([-1, -1, 1]);
});

test("what a file's name says beside the title: voice, tempo, both pitches and revision", () => {
  expect(recordingFacts({ ...score, revision: 3 }, named("Mix"))).toBe("Mix, 60 to the minute, low A 466.2 Hz, band A 440 Hz, revision 3");
});
