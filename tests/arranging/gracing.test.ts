import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { fittingGroups } from "../../src/arranging/fitting-groups.ts";
import { graceSites } from "../../src/arranging/grace-sites.ts";
import { offersFor } from "../../src/arranging/gracenote-offers.ts";
import { type GracingDepth, gracingOf } from "../../src/arranging/gracing.ts";
import { TUNE_TYPES, type TuneType } from "../../src/arranging/gracing-rules.ts";
import { mergeRepeatedNotes } from "../../src/arranging/merge-repeated-notes.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { placementOf } from "../../src/pipes/embellishments.ts";
import { fingeringTable } from "../../src/pipes/fingering-table.ts";
import { movementsOf } from "../../src/pipes/gracenote-group.ts";
import { check } from "../../src/score/check.ts";
import type { Edit } from "../../src/score/edit.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";
import { draws, scoreFrom } from "../support/random-music.ts";

const DEPTHS: readonly GracingDepth[] = ["dividing", "on-beat", "full"];
const SEED = { seed: 31, numRuns: 150 };

function applied(score: Score, edits: readonly Edit[]): Score {
  if (edits.length === 0) return score;
  const outcome = applyEdits(score, edits);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

function graced(score: Score, tuneType: TuneType, depth: GracingDepth): Score {
  return applied(score, gracingOf(score, { line: "pipes", tuneType, depth, stretch: null }).edits);
}

function at60(text: string): Score {
  const sketch = pipeSketch(text);
  return { ...sketch, frames: sketch.frames.map((frame) => ({ ...frame, tempo: { beat: ticks(960), perMinute: bpm(60) } })) };
}

const pipesOf = (score: Score) => pipeLineOf(score, "pipes") as PipeLine;

/** At 60 quarters a minute. What divides like notes, and the G on the beat, are common practice; what else full gracing adds is from memory. */
const BY_HAND: readonly (readonly [fact: string, type: TuneType, depth: GracingDepth, music: string, graced: string])[] = [
  ["only like notes are divided", "march", "dividing", "B2! B2 c2 e2", "B2! {g}B2 c2 e2"],
  ["high Gs by the thumb, high As by a struck G", "march", "dividing", "g2! g2 a2 a2", "g2! {a}g2 a2 {g}a2"],
  ["runs of like notes alternate", "reel", "dividing", "B2! B2 B2 B2", "B2! {g}B2 {d}B2 {g}B2"],
  [
    "each beat has a gracenote, what lies between has none",
    "jig",
    "on-beat",
    "B1! c1 d1 e1 f1 e1 d1 c1",
    "{g}B1! c1 {g}d1 e1 {g}f1 e1 {g}d1 c1",
  ],
  ["gracenotes set by hand stay", "march", "full", "{d}B2! {e}B2 c2 {g}e2", "{d}B2! {e}B2 {gcd}c2 {g}e2"],
  ["a march has groups on every beat", "march", "full", "B2! c2 d2 e2", "{gBd}B2! {gcd}c2 {Gdc}d2 {gef}e2"],
  ["a strathspey has the heavy throw on the first", "strathspey", "full", "d2! c2 d2 e2", "{GdGc}d2! {gcd}c2 {Gdc}d2 {gef}e2"],
  ["a reel has a group on the first beat, and throws", "reel", "full", "B2! c2 d2 e2", "{gBd}B2! {g}c2 {Gdc}d2 {g}e2"],
  ["a hornpipe has a group on the first beat, and throws", "hornpipe", "full", "c2! B2 d2 f2", "{gcd}c2! {g}B2 {Gdc}d2 {g}f2"],
  ["a jig has little but the throw", "jig", "full", "d2! c2 B2 e2", "{Gdc}d2! {g}c2 {g}B2 {g}e2"],
  ["a slow air has doublings and throws on its long notes", "slow air", "full", "e4! d2 c1 B1", "{gef}e4! {Gdc}d2 {g}c1 B1"],
  [
    "a song line: new syllables on beats, none in a melisma",
    "song line",
    "on-beat",
    '"so"B2! c2 "far"d1 "a"e1 "way"f2',
    '"so"{g}B2! c2 "far"{g}d1 "a"e1 "way"{g}f2',
  ],
  ["a song line without words has a gracenote on each beat", "song line", "on-beat", "B2! c1 d1 d4", "{g}B2! {g}c1 d1 {g}d4"],
  ["a like note in a melisma is left", "song line", "full", '"so"B2! B2 "far"e2 "far"e2', '"so"{g}B2! B2 "far"{g}e2 "far"{A}e2'],
  ["a run of three like notes has G, D and E in turn", "march", "full", "c2! B1 B1 B1 e3", "{gcd}c2! {g}B1 {d}B1 {e}B1 e3"],
  [
    "a run of four, which is no whole number of those, alternates",
    "march",
    "full",
    "c2! B1 B1 B1 B1 e2",
    "{gcd}c2! {g}B1 {d}B1 {g}B1 {d}B1 {GdG}e2",
  ],
  ["G, D and E are played by all three or not at all", "march", "full", "c2! B1 {g}B1 B1 e3", "{gcd}c2! {g}B1 {g}B1 {d}B1 e3"],
  ["what the hand set as the figure has it belongs to the figure", "march", "full", "c2! B1 {d}B1 B1 e3", "{gcd}c2! {g}B1 {d}B1 {e}B1 e3"],
];

describe("gracing by rule", () => {
  it.each(BY_HAND)("%s", (_fact, type, depth, music, expected) => {
    expect(asText(graced(at60(music), type, depth))).toBe(asText(at60(expected)));
  });

  it("leaves what lies outside the stretch", () => {
    const score = at60("B2! c2 d2 e2");
    const stretch = { from: at(0, 2), to: at(0, 6) };
    expect(asText(applied(score, gracingOf(score, { line: "pipes", tuneType: "march", depth: "on-beat", stretch }).edits))).toBe(
      asText(at60("B2! {g}c2 {g}d2 e2")),
    );
  });

  it("divides like notes over the jump of a repeat", () => {
    const score = at60("B2! c2 d2 B2");
    const [frame] = score.frames;
    if (frame === undefined) throw new RangeError("one bar");
    const repeated = { ...score, frames: [{ ...frame, repeatStart: true, repeatEnd: true }] };
    expect(asText(graced(score, "march", "dividing"))).toBe(asText(score));
    expect(asText(graced(repeated, "march", "dividing"))).toBe(asText(at60("{g}B2! c2 d2 B2")));
  });

  it("puts a group of 120 ms on a note of 250 ms, and only a gracenote on one of 225 ms", () => {
    const withTempo = (perMinute: number) => {
      const sketch = pipeSketch("B2! c2 d2 e2");
      return { ...sketch, frames: sketch.frames.map((frame) => ({ ...frame, tempo: { beat: ticks(960), perMinute: bpm(perMinute) } })) };
    };
    expect(gracingOf(withTempo(240), { line: "pipes", tuneType: "reel", depth: "full", stretch: null }).edits[0]).toMatchObject({
      gracenotes: ["high-g", "b", "d"],
    });
    expect(gracingOf(withTempo(267), { line: "pipes", tuneType: "reel", depth: "full", stretch: null }).edits[0]).toMatchObject({
      gracenotes: ["high-g"],
    });
  });

  it("grants a repeat's first note only what can be fingered from its last note too", () => {
    const score = at60("e2! d2 c2 a2");
    const repeated = { ...score, frames: score.frames.map((frame) => ({ ...frame, repeatStart: true, repeatEnd: true })) };
    const [site] = graceSites(repeated, pipesOf(repeated));
    expect(site?.before.map((before) => before?.note.note ?? null)).toEqual([null, "high-a"]);
    const letters = offersFor(repeated, at(0, 0)).map(({ spelling }) => spelling);
    expect(letters).not.toContain("{g}");
    expect(offersFor(score, at(0, 0)).map(({ spelling }) => spelling)).toContain("{g}");
  });
});

describe("for any score, kind of tune and depth", () => {
  const cases = fc.tuple(draws, fc.constantFrom(...TUNE_TYPES), fc.constantFrom(...DEPTHS));

  it("a second time nothing is left to do, and what was set by hand stays", () => {
    fc.assert(
      fc.property(cases, ([numbers, type, depth]) => {
        const score = scoreFrom(numbers);
        const once = graced(score, type, depth);
        expect(gracingOf(once, { line: "pipes", tuneType: type, depth, stretch: null }).edits).toEqual([]);
        const after = pipesOf(once).bars;
        for (const [index, bar] of pipesOf(score).bars.entries()) {
          for (const [place, event] of bar.events.entries()) {
            if (event.kind === "note" && event.gracenotes.length > 0) expect(after[index]?.events[place]).toEqual(event);
          }
        }
      }),
      SEED,
    );
  });

  it("every group put in can be fingered from each note before it, and its note lasts twice its 40 ms a gracenote", () => {
    fc.assert(
      fc.property(cases, ([numbers, type, depth]) => {
        const score = scoreFrom(numbers);
        const line = pipesOf(score);
        const sites = graceSites(score, line);
        for (const edit of gracingOf(score, { line: "pipes", tuneType: type, depth, stretch: null }).edits) {
          if (edit.kind !== "gracenotes") throw new Error(edit.kind);
          const site = sites.find(({ address }) => address.bar === edit.at.bar && address.at === edit.at.at);
          if (site === undefined) throw new Error("no note there");
          for (const before of site.before) {
            const place = { before: before?.note.note ?? null, note: site.note.note };
            expect(movementsOf(fingeringTable(line.setup), edit.gracenotes, place).ok).toBe(true);
          }
          const needed = 2 * 0.04 * edit.gracenotes.length;
          expect(site.seconds).toBeGreaterThanOrEqual(needed);
          const givesTime = placementOf(edit.gracenotes) === "before-beat" ? site.before : [];
          for (const giver of givesTime) expect(giver?.seconds ?? needed).toBeGreaterThanOrEqual(needed);
          if (type === "song line") expect(site.inMelisma).toBe(false);
        }
      }),
      SEED,
    );
  });

  it("nothing new is found, and a like note stays undivided only where no gracenote fits in its time", () => {
    const likes = (score: Score) => check(score).filter(({ kind, address }) => kind === "like-notes" && address.line === "pipes");
    fc.assert(
      fc.property(draws, fc.constantFrom(...DEPTHS), (numbers, depth) => {
        const once = graced(scoreFrom(numbers), "march", depth);
        const sites = graceSites(once, pipesOf(once));
        for (const { address } of likes(once)) {
          const site = sites.find((one) => one.address.bar === address.bar && one.address.at === address.at);
          expect(site && fittingGroups(pipesOf(once).setup, site).filter(({ gracenotes }) => gracenotes.length === 1)).toEqual([]);
        }
      }),
      SEED,
    );
  });
});

test("for any score the repeated notes can be tied, and then none are left", () => {
  fc.assert(
    fc.property(draws, (numbers) => {
      const score = scoreFrom(numbers);
      const merged = applied(score, mergeRepeatedNotes(score, "pipes", null).edits);
      expect(mergeRepeatedNotes(merged, "pipes", null).edits).toEqual([]);
    }),
    SEED,
  );
});

test("repeated notes become one note within each beat, their words come together, and none is held over it", () => {
  const score = at60('"la"B1! "la"B1 B1 {g}B1 c1 d1 e1 e1');
  const merged = applied(score, mergeRepeatedNotes(score, "pipes", null).edits);
  expect(asText(merged)).toBe(asText(at60('"la_la"B2! B1 {g}B1 c1 d1 e2')).replace("_", " "));
  expect(mergeRepeatedNotes(merged, "pipes", null).edits).toEqual([]);
});

test("a word sung on the second of two like notes goes to the one they become", () => {
  const score = at60('B1! "la"B1 c2 d2 e2');
  expect(asText(applied(score, mergeRepeatedNotes(score, "pipes", null).edits))).toBe(asText(at60('"la"B2! c2 d2 e2')));
});

test("repeated notes that lead into a tie, or out of one, are tied to it", () => {
  const score = at60("B1! B1- B2 e2- e1 e1");
  expect(asText(applied(score, mergeRepeatedNotes(score, "pipes", null).edits))).toBe(asText(at60("B1!- B1- B2 e2- e1- e1")));
});

describe("what is offered on a note", () => {
  it("stands with name, letters, placement and time, the most usual first", () => {
    const offers = offersFor(at60("B2! d6"), at(0, 2));
    expect(offers[0]).toMatchObject({ name: "G gracenote", spelling: "{g}", gracenotes: ["high-g"], placement: "on-beat", seconds: 0.04 });
    expect(offers.find(({ name }) => name === "light throw")).toMatchObject({ spelling: "{Gdc}", placement: "on-beat", seconds: 0.12 });
    expect(offers.find(({ name }) => name === "grip")).toMatchObject({ spelling: "{GdG}", placement: "before-beat" });
  });

  it("after high A is no G gracenote and no doubling that opens with one", () => {
    expect(offersFor(at60("a2! B6"), at(0, 2)).filter(({ gracenotes }) => gracenotes[0] === "high-g")).toEqual([]);
  });

  it("is nothing on a rest", () => {
    expect(offersFor(at60("B2!. z6"), at(0, 4))).toEqual([]);
  });
});
