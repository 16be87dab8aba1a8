import { expect, test } from "vitest";
import { gracedNoteInWords } from "../../src/arranging/graced-note-words.ts";
import { at, pipeSketch } from "../support/pipe-sketch.ts";

test.each([
  ["a group that the table knows there", "A4! {Gdc}d4", "Bar 1: light throw on D, {Gdc}."],
  ["the same group by another name after low A", "A4! {GAG}A4", "Bar 1: plain birl on low A, {GAG}."],
  ["gracenotes of nobody's", "A4! {gcG}d4", "Bar 1: gracenotes on D, {gcG}."],
  ["none", "A4! d4", "Bar 1: plain D."],
  ["a rest", "A4!. z4", ""],
])("%s is said in words", (_what, music, words) => {
  expect(gracedNoteInWords(pipeSketch(music), at(0, 4))).toBe(words);
});
