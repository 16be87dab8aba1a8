import fc from "fast-check";
import { expect, it } from "vitest";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { lettersOfGracenotes } from "../../src/pipes/gracenote-letters.ts";
import { gracenotesFromSpelling } from "../../src/pipes/gracenote-spelling.ts";
import { noteName } from "../../src/pipes/note-names.ts";

it.each([
  ["{Gdc}", "low-g d c"],
  ["gBd", "high-g b d"],
  ["gbd", "high-g b d"],
  ["G D C", "low-g d c"],
  ["low G, D, C", "low-g d c"],
  ["LOW A lowG", "low-a low-g"],
  ["high A, high G", "high-a high-g"],
  ["thumb", "high-a"],
  ["low G d c", "low-g d c"],
  [" { } ", ""],
])("%j is read as %j", (text, notes) => {
  expect(gracenotesFromSpelling(text)).toEqual({ ok: true, value: notes === "" ? [] : notes.split(" ") });
});

it.each([
  ["gxd", "x"],
  ["doubling", "o"],
  ["h", "h"],
  ["g#", "#"],
])("%j is refused for its %j", (text, sign) => {
  const read = gracenotesFromSpelling(text);
  expect(!read.ok && read.reason).toBe(
    `“${sign}” is no gracenote. Write letters, G A B c d e f g a from low G to high A, or names: low G, D, C.`,
  );
});

it("whatever is written in letters or names is read as it was meant", () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...NINE_NOTES)), (gracenotes) => {
      expect(gracenotesFromSpelling(lettersOfGracenotes(gracenotes))).toEqual({ ok: true, value: gracenotes });
      expect(gracenotesFromSpelling(gracenotes.map(noteName).join(", "))).toEqual({ ok: true, value: gracenotes });
    }),
    { seed: 20261125 },
  );
});
