import { describe, expect, it } from "vitest";
import { type GracingDepth, gracingOf } from "../../src/arranging/gracing.ts";
import { FULL_GRACING, GRACING_RULES, TUNE_TYPES, type TuneType } from "../../src/arranging/gracing-rules.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import type { Frame } from "../../src/score/frame.ts";
import type { Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";
import { asText, pipeSketch } from "../support/pipe-sketch.ts";

/* What comes out, in letters. The rules of full gracing are from memory (`gracing-rules.ts`), and so is what is expected of them here. */

interface Tune {
  readonly meter: Frame["meter"];
  /** The value counted, ticks, and how many of it in a minute. */
  readonly beat: number;
  readonly perMinute: number;
  readonly plain: string;
  readonly graced: Readonly<Record<GracingDepth, string>>;
}

const TUNES: Readonly<Record<TuneType, Tune>> = {
  march: {
    meter: { beats: 4, unit: 4 },
    beat: 960,
    perMinute: 84,
    plain: "A2! B c3 e | f3 e c2 A2 | d2 e c B2 A | e2 A4 A2.",
    graced: {
      dividing: "A2! B c3 e | f3 e c2 A2 | d2 e c B2 A | e2 A4 {g}A2.",
      "on-beat": "{g}A2! {g}B c3 {g}e | {g}f3 e {g}c2 {g}A2 | {g}d2 {g}e c {g}B2 {g}A | {g}e2 {g}A4 {d}A2.",
      full: "{gAd}A2! {g}B c3 {g}e | {gfg}f3 e {gcd}c2 {GdGe}A2 | {Gdc}d2 {g}e c {gBd}B2 {g}A | {gef}e2 {GdGe}A4 {gAGAG}A2.",
    },
  },
  strathspey: {
    meter: { beats: 4, unit: 4 },
    beat: 960,
    perMinute: 110,
    plain: "d2! c240/480 A720/480 e720/480 c240/480 d720/480 e240/480 | f720/480 e240/480 c240/480 A720/480 B G A2",
    graced: {
      dividing: "d2! c240/480 A720/480 e720/480 c240/480 d720/480 e240/480 | f720/480 e240/480 c240/480 A720/480 B G A2",
      "on-beat":
        "{g}d2! {g}c240/480 A720/480 {g}e720/480 c240/480 {g}d720/480 e240/480 | {g}f720/480 e240/480 {g}c240/480 A720/480 {g}B G {g}A2",
      full: "{GdGc}d2! {g}c240/480 {e}A720/480 {GdG}e720/480 c240/480 {Gdc}d720/480 e240/480 | {gfg}f720/480 e240/480 {g}c240/480 {e}A720/480 {g}B G {gAGAG}A2",
    },
  },
  reel: {
    meter: { beats: 4, unit: 4 },
    beat: 1920,
    perMinute: 80,
    plain: "c2! A A e A c A | d2 B B g B d B | c3 A e c a2 | g e d B A2 A2",
    graced: {
      dividing: "c2! A {g}A e A c A | d2 B {g}B g B d B | c3 A e c a2 | g e d B A2 {g}A2",
      "on-beat": "{g}c2! {g}A {d}A {g}e A {g}c A | {g}d2 {g}B {d}B {a}g B {g}d B | {g}c3 A {g}e c a2 | g e {g}d B {g}A2 {d}A2",
      full: "{gcd}c2! {g}A {d}A {g}e A {g}c A | {Gdc}d2 {g}B {d}B {a}g B {g}d B | {gcd}c3 A {g}e c a2 | g e {g}d B {g}A2 {GAG}A2",
    },
  },
  jig: {
    meter: { beats: 6, unit: 8 },
    beat: 1440,
    perMinute: 100,
    plain: "A2! e e d B | B B B g e d | c2 A e3 | d B G A3",
    graced: {
      dividing: "A2! e {g}e d B | {g}B {d}B {g}B g e d | c2 A e3 | d B G A3",
      "on-beat": "{g}A2! e {g}e d B | {g}B {d}B {g}B {a}g e d | {g}c2 A {g}e3 | {g}d B G {g}A3",
      full: "{g}A2! e {g}e d B | {g}B {d}B {e}B {a}g e d | {gcd}c2 A {g}e3 | {g}d B G {gAGAG}A3",
    },
  },
  hornpipe: {
    meter: { beats: 4, unit: 4 },
    beat: 960,
    perMinute: 110,
    plain: "c720/480! d240/480 e720/480 c240/480 c A2 e | f720/480 e240/480 d720/480 c240/480 B2 A2",
    graced: {
      dividing: "c720/480! d240/480 e720/480 c240/480 {g}c A2 e | f720/480 e240/480 d720/480 c240/480 B2 A2",
      "on-beat": "{g}c720/480! d240/480 {g}e720/480 c240/480 {g}c A2 e | {g}f720/480 e240/480 {g}d720/480 c240/480 {g}B2 {g}A2",
      full: "{gcd}c720/480! d240/480 {g}e720/480 c240/480 {gcd}c {e}A2 e | {gfg}f720/480 e240/480 {Gdc}d720/480 c240/480 {g}B2 {gAGAG}A2",
    },
  },
  "slow air": {
    meter: { beats: 3, unit: 4 },
    beat: 960,
    perMinute: 56,
    plain: "A2! c3 B | c2 e4 | f2 a3 f | e2 A4",
    graced: {
      dividing: "A2! c3 B | c2 e4 | f2 a3 f | e2 A4",
      "on-beat": "{g}A2! {g}c3 B | {g}c2 {g}e4 | {g}f2 a3 f | {g}e2 {g}A4",
      full: "{g}A2! {gcd}c3 B | {gcd}c2 {gef}e4 | {gfg}f2 {ag}a3 f | {gef}e2 {GdGe}A4",
    },
  },
  "song line": {
    meter: { beats: 4, unit: 4 },
    beat: 960,
    perMinute: 90,
    plain: '"so"d2! d2 "far"e d "a"B2 | "way"e4 "o"e "ver"e "the"e "sea"e',
    graced: {
      dividing: '"so"d2! d2 "far"e d "a"B2 | "way"e4 "o"{g}e "ver"{A}e "the"{g}e "sea"{A}e',
      "on-beat": '"so"{g}d2! d2 "far"{g}e d "a"{g}B2 | "way"{g}e4 "o"{A}e "ver"{g}e "the"{A}e "sea"{g}e',
      full: '"so"{Gdc}d2! d2 "far"{g}e d "a"{g}B2 | "way"{g}e4 "o"{A}e "ver"{g}e "the"{A}e "sea"{g}e',
    },
  },
};

function sketchOf({ meter, beat, perMinute, plain }: Tune): Score {
  const sketch = pipeSketch(plain, meter);
  return { ...sketch, frames: sketch.frames.map((frame) => ({ ...frame, tempo: { beat: ticks(beat), perMinute: bpm(perMinute) } })) };
}

const CASES = TUNE_TYPES.flatMap((type) => (["dividing", "on-beat", "full"] as const).map((depth) => ({ type, depth, tune: TUNES[type] })));

describe("a short tune comes out in letters", () => {
  it.each(CASES)("$type, $depth", ({ type, depth, tune }) => {
    const score = sketchOf(tune);
    const outcome = applyEdits(score, gracingOf(score, { line: "pipes", tuneType: type, depth, stretch: null }).edits);
    expect(outcome.ok && asText(outcome.value)).toBe(tune.graced[depth]);
  });
});

describe("where the beat is, not only what is long, decides", () => {
  const fully = (type: TuneType, plain: string): string => {
    const score = sketchOf({ ...TUNES[type], plain });
    const outcome = applyEdits(score, gracingOf(score, { line: "pipes", tuneType: type, depth: "full", stretch: null }).edits);
    return outcome.ok ? asText(outcome.value) : outcome.reason;
  };

  it("a march in even eighths is doubled on its first beats", () => {
    expect(fully("march", "c1! e f e c e f e | e f a f e f a f")).toBe("{gcd}c! e {g}f e {g}c e {g}f e | {gef}e f a f {g}e f a f");
  });

  it("a strathspey has its birl where a low A fills a beat that something leads to", () => {
    expect(fully("strathspey", "A2! c A c A e2")).not.toContain("AGAG");
    expect(fully("strathspey", "B2! A2 e4")).toContain("{gAGAG}A2");
  });

  it("no G gracenote stands before high G sharp, where it would only smear", () => {
    expect(fully("march", "e2! ^g2 e2 ^g2")).toBe("{gef}e2! ^g2 {gef}e2 ^g2");
  });
});

describe("the rules of full gracing", () => {
  it("are each played by some kind of tune", () => {
    const used = new Set(TUNE_TYPES.flatMap((type) => FULL_GRACING[type].rules));
    expect(Object.keys(GRACING_RULES).filter((name) => !used.has(name as keyof typeof GRACING_RULES))).toEqual([]);
  });

  it("say that they are from memory: nothing published lays them down", () => {
    expect(Object.values(GRACING_RULES).map(({ mark }) => mark)).toEqual(Object.keys(GRACING_RULES).map(() => "from-memory"));
  });
});
