import { expect, test } from "vitest";
import { auditionsAt } from "../../src/arranging/auditions.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { Address } from "../../src/score/address.ts";
import type { PipeEvent } from "../../src/score/bar.ts";
import { check } from "../../src/score/check.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeScore, secondFrame } from "../support/playback-scores.ts";
import { gracedNote, pipeNote } from "../support/written-music.ts";

const at = (moment: number): Address => ({ line: "pipes", bar: 0, at: ticks(moment) });

/** A bar of an A, B or D tune on a B chanter; its chord is struck at the start. */
function barOf(events: readonly PipeEvent[], tonic: string, chord = "F#m"): Score {
  const frames = [secondFrame({ key: { tonic, mode: "mixolydian" }, chords: [{ at: ticks(0), symbol: chord }] })];
  return pipeScore([events], { frames, setup: defaultSetup("B") });
}

const seventh = (chord?: string) => barOf([pipeNote("e", 1920, { strikeIn: true }), pipeNote("high-g", 1920)], "B", chord);

function versionsOf(score: Score, place: Address, kind: string) {
  const offer = auditionsAt(score, place).offers.find((one) => one.kind === kind);
  return (offer?.versions ?? []).map((version) => {
    const applied = applyEdits(score, version.edits);
    if (!applied.ok) throw new Error(`${version.name}: ${applied.reason}`);
    return { ...version, score: applied.value };
  });
}

const notesOf = (score: Score): readonly ChanterNote[] =>
  pipeLines(score)[0]?.bars[0]?.events.flatMap((event) => (event.kind === "note" ? [event.note] : [])) ?? [];

test("in written A a high G is offered flat, as leading tone, and one after the other, with the band's dominant as each wants it", () => {
  const score = seventh();
  const versions = versionsOf(score, at(2000), "leading-tone");
  expect(versions.map(({ name, score: one }) => [name, notesOf(one), one.frames[0]?.chords[0]?.symbol])).toEqual([
    ["Flat seventh", ["e", "high-g"], "F#m"],
    ["Leading tone", ["e", "high-g-sharp"], "F#"],
    ["One, then the other", ["e", "high-g", "high-g-sharp"], "F#"],
  ]);
  expect(versions[0]?.edits).toEqual([]);
});

test("a version with the leading tone makes it speak in the setup, so that nothing is found that was not found before", () => {
  const score = seventh();
  const kinds = (one: Score) => check(one).filter(({ kind }) => kind === "cross-fingering" || kind === "like-notes" || kind === "tie");
  for (const version of versionsOf(score, at(1920), "leading-tone")) expect(kinds(version.score), version.name).toEqual([]);
});

test("asked from the leading tone itself, the flat seventh takes the dominant's third down again; seventh chords keep their seventh", () => {
  const score = versionsOf(seventh("F#m7"), at(1920), "leading-tone")[1]?.score as Score;
  expect(score.frames[0]?.chords[0]?.symbol).toBe("F#7");
  const back = versionsOf(score, at(1920), "leading-tone")[0];
  expect(back?.score.frames[0]?.chords[0]?.symbol).toBe("F#m7");
});

test("chords that are not on the fifth degree stay as they are", () => {
  for (const version of versionsOf(seventh("B"), at(1920), "leading-tone")) expect(version.score.frames[0]?.chords[0]?.symbol).toBe("B");
});

test("in written D it is said that the leading tone is C, a plain note; in written E that there is none", () => {
  const bar = [pipeNote("c", 3840, { strikeIn: true })];
  expect(auditionsAt(barOf(bar, "E"), at(0)).remarks).toEqual([
    "The leading tone here is C, a plain note: there is nothing to cross-finger.",
  ]);
  expect(auditionsAt(barOf(bar, "F#"), at(0)).remarks).toEqual(["The chanter has no leading tone in this key."]);
});

test("C and C natural, F and F natural are offered against each other, whichever stands there", () => {
  const bar = (note: ChanterNote) => barOf([pipeNote(note, 3840, { strikeIn: true })], "E");
  for (const [one, other] of [
    ["c", "c-natural"],
    ["f", "f-natural"],
  ] as const)
    for (const there of [one, other])
      expect(versionsOf(bar(there), at(0), "substitute").map(({ score }) => notesOf(score)[0])).toEqual([one, other]);
  expect(versionsOf(bar("b"), at(0), "substitute")).toEqual([]);
});

test("a graced note is offered bare, and every note just and equal", () => {
  const score = barOf([gracedNote(["high-g"], "low-a", 3840)], "E");
  const [graced, bare] = versionsOf(score, at(0), "gracing");
  expect(graced?.score).toBe(score);
  expect(pipeLines(bare?.score as Score)[0]?.bars[0]?.events[0]).toMatchObject({ gracenotes: [] });
  const scales = versionsOf(score, at(0), "temperament").map(({ score: one }) => pipeLines(one)[0]?.setup.scale);
  expect(scales).toEqual([
    { kind: "published", name: "septimal" },
    { kind: "published", name: "equal" },
  ]);
});

test("where no pipe note sounds there is nothing to audition", () => {
  expect(auditionsAt(seventh(), { ...at(0), line: "fiddle" })).toEqual({ offers: [], remarks: [] });
  expect(auditionsAt(seventh(), { ...at(0), bar: 7 })).toEqual({ offers: [], remarks: [] });
});
