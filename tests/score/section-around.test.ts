import { expect, test } from "vitest";
import type { Frame } from "../../src/score/frame.ts";
import { newScore } from "../../src/score/new-score.ts";
import { sectionAround, sectionsOf } from "../../src/score/section-around.ts";

function named(names: readonly (string | null)[]): readonly Frame[] {
  return newScore({ bars: names.length }).frames.map((frame, bar) => {
    const name = names[bar] ?? null;
    return { ...frame, section: name === null ? null : { name, letter: "" } };
  });
}

const song = named([null, "Verse", null, null, "Chorus", null]);

test("a section reaches from its first bar to the bar before the next one", () => {
  expect(sectionAround(song, 2)).toEqual({ name: "Verse", range: { first: 1, last: 3 } });
  expect(sectionAround(song, 5)).toEqual({ name: "Chorus", range: { first: 4, last: 5 } });
});

test("bars before the first named section form one without a name", () => {
  expect(sectionAround(song, 0)).toEqual({ name: "", range: { first: 0, last: 0 } });
});

test("the sections side by side cover every bar once", () => {
  const covered = sectionsOf(song).flatMap(({ range }) =>
    Array.from({ length: range.last - range.first + 1 }, (_, index) => range.first + index),
  );
  expect(covered).toEqual([0, 1, 2, 3, 4, 5]);
});

test("a bar that is not there is our mistake", () => {
  expect(() => sectionAround(song, 6)).toThrow(RangeError);
});
