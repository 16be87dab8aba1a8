import { expect, test } from "vitest";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import { companyAt, inCompany } from "../../src/playback/audition-company.ts";
import {
  beatsWithBandInWords,
  beatsWithDronesInWords,
  offDroneInWords,
  ordinal,
  playedInWords,
  verdictOf,
  wayInWords,
} from "../../src/playback/audition-words.ts";
import { USUAL_BLEND } from "../../src/playback/blend.ts";
import { judgedNote } from "../../src/playback/judged-note.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeScore, secondFrame, withFiddle } from "../support/playback-scores.ts";
import { concertNote, pipeNote, rest } from "../support/written-music.ts";

const chords = [
  { at: ticks(0), symbol: "E" },
  { at: ticks(1920), symbol: "F#m" },
];
const score = withFiddle(pipeScore([[pipeNote("e", 3840)]], { frames: [secondFrame({ chords, key: { tonic: "E", mode: "major" } })] }), [
  [concertNote("B4 E5", 1920), rest(1920)],
]);
const at = { line: "pipes", bar: 0, at: ticks(0) };

test("in company of drones only the pipes are left; with the chord a piano strikes the symbols where they stand, bass below, no tone twice", () => {
  expect(inCompany(score, "drones").lines.map(({ id }) => id)).toEqual(["pipes"]);
  const chord = inCompany(score, "chord");
  const sounds = scheduleOf(chord).players[0]?.sounds ?? [];
  const start = scheduleOf(chord).timeline.start;
  expect(sounds.map(({ start: begins, pitch }) => [begins - start, pitch])).toEqual([
    [0, "E2"],
    [0, "G#3"],
    [0, "B3"],
    [0, "E4"],
    [2, "F#2"],
    [2, "A3"],
    [2, "C#4"],
    [2, "F#4"],
  ]);
  expect(inCompany(score, "band")).toBe(score);
});

test("what sounds beside a note are the players' pitches at its first moment, each at its own level; after they rest, nothing", () => {
  const beside = companyAt(score, at, USUAL_BLEND);
  expect(beside.band.map(({ pitch, level }) => [pitch, level])).toEqual([
    ["B4", -8],
    ["E5", -8],
  ]);
  expect(beside.levels).toEqual({ chanter: -6, drones: -14 });
  expect(companyAt(score, { ...at, at: ticks(1920) }, USUAL_BLEND).band).toEqual([]);
});

test("a chord that is none, or says that nobody plays, is a rest", () => {
  const silent = pipeScore([[pipeNote("e", 3840)]], { frames: [secondFrame({ chords: [{ at: ticks(0), symbol: "N.C." }] })] });
  expect(scheduleOf(inCompany(silent, "chord")).players[0]?.sounds).toEqual([]);
});

test("septimal high G over its own drones locks to them; moved by the equal scale it does not", () => {
  const alone = { band: [], bandA: hertz(440) };
  expect(verdictOf(judgedNote(defaultSetup("B"), "high-g", alone))).toBe("Locks to the drone.");
  const equal = { ...defaultSetup("B"), scale: { kind: "published", name: "equal" } as const };
  expect(verdictOf(judgedNote(equal, "high-g", alone))).not.toContain("Locks");
});

test("a note far off a held unison says who beats against it", () => {
  const company = {
    bandA: hertz(440),
    band: [{ pitch: concertPitch("A5"), spectrum: [0, -6, -10].map((level) => level as never), level: -8 as never }],
  };
  expect(
    verdictOf(
      judgedNote({ ...defaultSetup("B"), scale: { kind: "published", name: "1954" } as const }, "c", {
        ...company,
        band: [{ ...company.band[0], pitch: concertPitch("D#5") } as never],
      }),
    ),
  ).toContain("Who holds D♯5 beats against it.");
});

test("what is played and how the fingers get there is said in words", () => {
  expect(playedInWords(["high-g", "high-g-sharp"])).toBe("high G, then high G♯, cross-fingered");
  expect(wayInWords(defaultSetup("B"), null, "e")).toBe("after silence");
  expect(wayInWords(defaultSetup("B"), "d", "e")).toMatch(/lower index.*; low G, low A, B, C may sound$/);
});

test("figures are said as they are counted: partials by their place, beats by whom they are with, none where it is in tune", () => {
  expect([1, 2, 3, 4, 11, 12, 13, 21, 22, 101, 111].map(ordinal).join(" ")).toBe("1st 2nd 3rd 4th 11th 12th 13th 21st 22nd 101st 111th");
  const setup = defaultSetup("B");
  const alone = { band: [], bandA: hertz(440) };
  expect(offDroneInWords(judgedNote(setup, "e", alone))).toBe("0 from the bass’s 6th");
  expect(beatsWithDronesInWords(judgedNote(setup, "e", alone))).toBe("none: in tune");
  const tenors = { ...setup, drones: setup.drones.map((drone) => ({ ...drone, on: drone.name === "tenor" })) };
  expect(offDroneInWords(judgedNote(tenors, "low-a", alone))).toBe("0 from the tenor’s 2nd");
  expect(offDroneInWords(judgedNote({ ...setup, drones: [] }, "low-a", alone))).toBe("no drone sounds");
  const band = [{ pitch: concertPitch("A5"), spectrum: [0 as never], level: -8 as never }];
  // Source: derived from 7/4 over 493.88 Hz against 880 Hz.
  expect(beatsWithBandInWords(judgedNote(setup, "high-g", { band, bandA: hertz(440) }))).toBe("15.7 on A5");
});
