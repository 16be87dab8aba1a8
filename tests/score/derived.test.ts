import { describe, expect, it } from "vitest";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import { barAtTime, barStarts, momentAt, timeOf } from "../../src/score/bar-starts.ts";
import { concertEventsOf } from "../../src/score/doubling.ts";
import type { BeatUnit, Frame } from "../../src/score/frame.ts";
import { beamGroupsOf, beatsOf, frameTicks, meterTicks } from "../../src/score/meter.ts";
import { newScore } from "../../src/score/new-score.ts";
import { eventAt } from "../../src/score/placed-events.ts";
import { playedOrder } from "../../src/score/played-order.ts";
import { tupletGroups } from "../../src/score/tuplet-groups.ts";
import { ticks } from "../../src/units/ticks.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";
import { frame, pipeNote } from "../support/written-music.ts";

describe("a meter", () => {
  const table: readonly (readonly [beats: number, unit: BeatUnit, length: number, beats: string, beams: string])[] = [
    [4, 4, 3840, "960 960 960 960", "960 960 960 960"],
    [3, 4, 2880, "960 960 960", "960 960 960"],
    [2, 2, 3840, "1920 1920", "1920 1920"],
    [3, 2, 5760, "1920 1920 1920", "1920 1920 1920"],
    [6, 8, 2880, "1440 1440", "1440 1440"],
    [9, 8, 4320, "1440 1440 1440", "1440 1440 1440"],
    [3, 8, 1440, "1440", "1440"],
    [6, 4, 5760, "2880 2880", "960 960 960 960 960 960"],
    [5, 4, 4800, "960 960 960 960 960", "960 960 960 960 960"],
    [5, 8, 2400, "1440 960", "1440 960"],
    [7, 8, 3360, "960 960 1440", "960 960 1440"],
    [12, 16, 2880, "720 720 720 720", "720 720 720 720"],
  ];
  for (const [beats, unit, length, beat, beams] of table) {
    it(`${beats}/${unit} lasts ${length} ticks, beats ${beat}, beams ${beams}`, () => {
      expect(meterTicks({ beats, unit })).toBe(length);
      expect(beatsOf({ beats, unit }).join(" ")).toBe(beat);
      expect(beamGroupsOf({ beats, unit }).join(" ")).toBe(beams);
    });
  }
});

describe("tuplet groups", () => {
  const table: readonly (readonly [fact: string, bar: string, groups: string])[] = [
    ["three triplet eighths fill a quarter", "3:d320/480 3:e320/480 3:f320/480 d6", "3x3=960"],
    ["six of them are two groups", "3:d320/480 3:e320/480 3:f320/480 3:d320/480 3:e320/480 3:f320/480 d4", "3x3=960 3x3=960"],
    ["a triplet quarter and eighth fill a quarter", "3:d640/480 3:e320/480 d6", "3x2=960"],
    ["three triplet quarters fill a half", "3:d640/480 3:e640/480 3:f640/480 d4", "3x3=1920"],
    ["a dotted eighth inside does not mislead", "3:d320/480 3:e160/480 3:f480/480 d6", "3x3=960"],
    ["two duplet eighths fill a dotted quarter", "2:d720/480 2:e720/480 d2", "2x2=1440"],
    ["what is left over is a group that is not complete", "3:d320/480 3:e320/480 3:f320/480 3:d320/480 d6", "3x3=960 3x1=320!"],
  ];
  for (const [fact, bar, expected] of table) {
    it(fact, () => {
      const [line] = pipeSketch(bar).lines;
      const groups = line?.kind === "pipes" && line.bars[0] !== undefined ? tupletGroups(line.bars[0]) : [];
      expect(groups.map((group) => `${group.tuplet}x${group.count}=${group.ticks}${group.complete ? "" : "!"}`).join(" ")).toBe(expected);
    });
  }
});

describe("the played order", () => {
  /** Bars as signs: `|:` begins a repeat, `:|` ends one, a figure is an ending. */
  const framesOf = (signs: string): readonly Frame[] =>
    signs.split(" ").map((sign) =>
      frame({
        repeatStart: sign.includes("|:"),
        repeatEnd: sign.includes(":|"),
        ending: sign.includes("1") ? 1 : sign.includes("2") ? 2 : null,
      }),
    );
  const table: readonly (readonly [fact: string, signs: string, order: string])[] = [
    ["is the written one where nothing repeats", "- - -", "0 1 2"],
    ["goes back to the repeat's beginning", "- |:- -:| -", "0 1 2 1 2 3"],
    ["goes back to the first bar where none is marked", "- -:| -", "0 1 0 1 2"],
    ["goes back to the end of the repeat before", "-:| - -:|", "0 0 1 2 1 2"],
    ["repeats a single bar", "- |:-:| -", "0 1 1 2"],
    ["leaves the first ending out the second time", "|:- 1:| 2 -", "0 1 0 2 3"],
    ["takes endings of several bars", "|:- - 1 1:| 2 2 -", "0 1 2 3 0 1 4 5 6"],
    ["takes two strains with endings, after a pickup", "- |:- 1:| 2 |:- 1:| 2", "0 1 2 1 3 4 5 4 6"],
    ["goes on after a first ending without a second", "|:- 1:| - -", "0 1 0 2 3"],
    ["passes over a repeat that does not end", "|:- - |:- -", "0 1 2 3"],
    ["plays a lonely second ending once", "- 2 -", "0 1 2"],
  ];
  for (const [fact, signs, order] of table) {
    it(fact, () => {
      expect(playedOrder(framesOf(signs)).join(" ")).toBe(order);
    });
  }

  it("is finite for any signs", () => {
    const choices = ["-", "|:-", "-:|", "|:-:|", "1", "1:|", "2", "2:|", "|:1:|"];
    for (let case_ = 0; case_ < choices.length ** 4; case_ += 1) {
      const signs = [0, 1, 2, 3].map((place) => choices[Math.floor(case_ / choices.length ** place) % choices.length]).join(" ");
      expect(playedOrder(framesOf(signs)).length, signs).toBeLessThanOrEqual(8);
    }
  });
});

describe("bars and times", () => {
  it("count from 1, or from 0 after a pickup", () => {
    expect(barNumber(newScore(), 0)).toBe(1);
    expect(barNumber(lanternScore(), 0)).toBe(0);
    expect(barNumber(lanternScore(), 5)).toBe(5);
  });

  it("lead from a moment to a time and back", () => {
    const { frames } = lanternScore();
    expect(barStarts(frames).at(-1)).toBe(frames.reduce((sum, one) => sum + frameTicks(one), 0));
    for (const time of [0, 959, 960, 961, 4800, 12_000]) expect(timeOf(frames, momentAt(frames, time))).toBe(time);
    expect(barAtTime(frames, 960)).toBe(1);
    expect(barAtTime(frames, 1_000_000)).toBe(frames.length - 1);
  });

  it("find the event that sounds", () => {
    const bar = { events: [pipeNote("d", 960), pipeNote("e", 2880)] };
    expect(eventAt(bar, ticks(959))?.event).toBe(bar.events[0]);
    expect(eventAt(bar, ticks(960))?.at).toBe(960);
    expect(eventAt(bar, ticks(3840))).toBeNull();
  });
});

describe("doubling", () => {
  it("is the pipes' notes at concert pitch, octaves away, without gracenotes, and the same list each time", () => {
    const score = lanternScore("B");
    const [pipes, doubler] = score.lines;
    if (pipes?.kind !== "pipes" || doubler?.kind !== "concert") throw new RangeError("lines");
    const events = concertEventsOf(score, doubler, 1);
    expect(concertEventsOf(score, doubler, 1)).toBe(events);
    expect(events.map((event) => event.ticks)).toEqual(pipes.bars[1]?.events.map((event) => event.ticks));
    // Written F sounds G sharp 5 on a B chanter; an octave lower G sharp 4.
    expect(events[0]).toMatchObject({ kind: "note", pitches: ["G#4"] });
    expect(events[0]).not.toHaveProperty("gracenotes");
  });
});

describe("a new score", () => {
  it("has eight bars of 4/4, one set of pipes and the key where written D sounds", () => {
    const score = newScore();
    expect(score.frames.length).toBe(8);
    expect(score.frames[0]?.key).toEqual({ tonic: "Eb", mode: "major" });
    expect(newScore({ setup: defaultSetup("B") }).frames[0]?.key).toEqual({ tonic: "E", mode: "major" });
    expect(score.lines.map((line) => line.bars.length)).toEqual([8]);
  });
});
