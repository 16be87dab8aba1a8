import { describe, expect, it } from "vitest";
import { type LineAct, planOf } from "../../src/arranging/line-act.ts";
import { lineScopes } from "../../src/arranging/line-scope.ts";
import { tuneTypeOf } from "../../src/arranging/tune-type-of.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";

const MARCH: LineAct = { kind: "grace", tuneType: "march", depth: "full" };
const DIVIDING: LineAct = { kind: "grace", tuneType: "march", depth: "dividing" };

const wordsOf = (music: string, act: LineAct): string => planOf(pipeSketch(music), "pipes", act, null).words;

describe("what an act would do is said", () => {
  it.each<[act: LineAct, music: string, words: string]>([
    [MARCH, "B4! e4", "6 gracenotes on 2 notes."],
    [MARCH, "{g}B4! e4", "3 gracenotes on 1 note; 1 note with gracenotes already stays as it is."],
    [MARCH, "{g}B4! {g}e4", "Every note here has gracenotes already. They stay as they are."],
    [MARCH, "z8", "There are no notes here."],
    [DIVIDING, "B4! e4", "No two like notes meet here undivided."],
    [DIVIDING, "{g}B4! e4", "No two like notes meet here undivided; 1 note with gracenotes already stays as it is."],
    [{ kind: "hold" }, "B1! B1 c2 c2 c2", "1 repeated note is held on from the one before."],
    [
      { kind: "hold" },
      '"high"B1! "er"B1 c2 c4',
      "1 repeated note is held on from the one before. Their words come together under the first.",
    ],
    [{ kind: "hold" }, "B1! {g}B1 c2 c4", "No note is repeated within a beat here, or gracenotes divide them."],
    [{ kind: "bare" }, "{g}B2! {gcd}c2 B4", "2 notes lose their gracenotes."],
    [{ kind: "bare" }, "{g}B2! {d}B2 {g}B4", "3 notes lose their gracenotes; 2 like notes sound as one with the note before."],
    [{ kind: "bare" }, "B8!", "No note here has gracenotes."],
  ])("%o of %s", (act, music, words) => {
    expect(wordsOf(music, act)).toBe(words);
  });

  it("names the like notes that are too short for a gracenote", () => {
    expect(wordsOf("B7! c30/480 c30/480", DIVIDING)).toBe("On 1 like note nothing fits in the time there is.");
  });

  it("takes the gracenotes of a stretch away, and of nothing else", () => {
    const score = pipeSketch("{g}B2! {gcd}c2 {g}e4");
    const { edits, label } = planOf(score, "pipes", { kind: "bare" }, { from: at(0, 2), to: at(0, 4) });
    const outcome = applyEdits(score, edits);
    expect(outcome.ok && asText(outcome.value)).toBe(asText(pipeSketch("{g}B2! c2 {g}e4")));
    expect(label).toBe("remove the gracenotes");
  });
});

describe("the kind of tune where nobody has said", () => {
  const named = (tuneType: string): Score => {
    const score = pipeSketch("B8!");
    return { ...score, credits: { ...score.credits, tuneType } };
  };

  it.each([
    ["2/4 March", "march"],
    ["Strathspeys and reels", "reel"],
    ["Slip jig", "jig"],
    ["Slow Air", "slow air"],
    ["Lament", "slow air"],
    ["Song, in the time of a march", "song line"],
    ["Fairy tale", "song line"],
    ["", "song line"],
  ])("%s is graced as a %s", (credits, type) => {
    expect(tuneTypeOf(named(credits), 0)).toBe(type);
  });

  it("is that of the medley's tune which the bar lies in", () => {
    const score = { ...named("March"), frames: pipeSketch("B8! | B8 | B8").frames };
    const [first, second, third] = score.frames;
    if (first === undefined || second === undefined || third === undefined) throw new RangeError("three bars");
    const tune = { title: "The Dry Dock", tuneType: "Reel", composer: "" };
    const medley = { ...score, frames: [first, { ...second, tune }, third] };
    expect([0, 1, 2].map((bar) => tuneTypeOf(medley, bar))).toEqual(["march", "reel", "reel"]);
  });
});

describe("how much of the line is meant", () => {
  const plain = pipeSketch("B8! | c8 | d8 | e8");
  const sketch: Score = {
    ...plain,
    frames: plain.frames.map((frame, bar) => (bar === 2 ? { ...frame, section: { name: "Chorus", letter: "" } } : frame)),
  };

  it("is what is chosen, its section, or the whole line", () => {
    const scopes = lineScopes(sketch, { from: at(2, 0), to: at(4, 0) }, 0);
    expect(scopes.map(({ words }) => words)).toEqual(["bars 3 to 4", "this section, Chorus", "the whole line"]);
    expect(scopes.map(({ stretch }) => stretch?.from.bar ?? null)).toEqual([2, 2, null]);
  });

  it("is the bar the hand is at where nothing is chosen", () => {
    expect(lineScopes(plain, null, 1).map(({ words }) => words)).toEqual(["bar 2", "the whole line"]);
    expect(lineScopes(plain, null, 1)[0]?.stretch).toEqual({ from: { bar: 1, at: ticks(0) }, to: { bar: 2, at: ticks(0) } });
  });

  it("is said as notes where it is not whole bars", () => {
    expect(lineScopes(plain, { from: at(0, 2), to: at(1, 0) }, 0)[0]?.words).toBe("the chosen notes");
  });
});
