import { isDeepStrictEqual } from "node:util";
import { expect } from "vitest";
import { check } from "../../src/score/check.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { LineEvent } from "../../src/score/like-events.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { lengthOf } from "../../src/score/placed-events.ts";
import { savedFormOf, scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { tupletGroups } from "../../src/score/tuplet-groups.ts";
import { isWritable } from "../../src/score/written-values.ts";

/** Freezes a value and everything in it, so that whoever changes it throws. */
export function deepFrozen<Value>(value: Value): Value {
  if (typeof value === "object" && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const inner of Object.values(value)) deepFrozen(inner);
  }
  return value;
}

type AnyBar = Line["bars"][number];
const barsOf = (line: Line): readonly AnyBar[] => line.bars;
const eventsIn = (bar: AnyBar): readonly LineEvent[] => (bar.kind === "doubling" ? [] : bar.events);

/** The score is consistent: as many bars as frames, each filled exactly with lengths that can be written, ties and tuplets whole. */
export function expectSound(score: Score): void {
  const ids = score.lines.map((line) => line.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const line of score.lines) {
    expect(line.bars.length).toBe(score.frames.length);
    barsOf(line).forEach((bar, index) => {
      if (bar.kind === "doubling") {
        expect(score.lines.some((one) => one.kind === "pipes" && one.id === bar.of)).toBe(true);
        return;
      }
      const frame = score.frames[index];
      expect(frame && lengthOf(bar)).toBe(frame && frameTicks(frame));
      for (const event of eventsIn(bar)) expect(isWritable(event.ticks, event.tuplet)).toBe(true);
      for (const group of tupletGroups(bar)) expect(group.complete).toBe(true);
    });
    if (line.kind === "pipes") {
      const first = line.bars.flatMap((bar) => bar.events).find((event) => event.kind === "note");
      if (first?.kind === "note") expect(first.strikeIn).toBe(true);
    }
  }
  const loose = check(score).filter((finding) => ["bar-length", "note-value", "tie"].includes(finding.kind));
  expect(loose).toEqual([]);
}

/** Saving and reading gives the same score and the same text. */
export function expectRoundTrip(score: Score): void {
  const text = savedFormOf(score);
  const read = scoreFromSavedForm(text);
  expect(isDeepStrictEqual(read, score)).toBe(true);
  expect(savedFormOf(read)).toBe(text);
}

/** The most bars of a line that change when bars come or go beside them: both ends of the seam, and the first note's. */
const AT_SEAMS = 4;

/**
 * Where nothing changed nothing was copied. As long as no bar came or went, a bar or frame that is equal to what stood there is that very object;
 * when some did, all the others are the same objects, but for the few at the seams.
 */
export function expectShared(before: Score, after: Score, edit: Edit): void {
  const pairs = before.lines.flatMap((line) => {
    const now = after.lines.find((one) => one.id === line.id);
    return now === undefined ? [] : [[barsOf(line), barsOf(now)] as const];
  });
  if (before.frames.length === after.frames.length) {
    expectSameWhereEqual(before.frames, after.frames);
    for (const [old, now] of pairs) expectSameWhereEqual(old, now);
  } else if (edit.kind !== "meter") {
    for (const [old, now] of [[before.frames, after.frames] as const, ...pairs]) {
      const [few, many] = old.length < now.length ? [old, now] : [now, old];
      const kept = new Set<object>(many);
      expect(few.filter((entry) => !kept.has(entry)).length).toBeLessThanOrEqual(AT_SEAMS);
    }
  }
}

function expectSameWhereEqual(before: readonly object[], after: readonly object[]): void {
  before.forEach((old, index) => {
    const now = after[index];
    if (now !== old && isDeepStrictEqual(now, old)) expect.fail(`Entry ${index} was copied though nothing in it changed.`);
  });
}

/** Every sung syllable, sorted. */
export function wordsOf(score: Score): readonly string[] {
  return score.lines
    .flatMap((line) => barsOf(line).flatMap(eventsIn))
    .flatMap((event) => (event.kind === "note" ? event.syllables.map((word) => word.text) : []))
    .sort();
}

/** Edits that say that something goes, and its words with it. */
export const REMOVING: readonly Edit["kind"][] = ["clear", "paste", "syllables", "remove-bars", "remove-line"];
