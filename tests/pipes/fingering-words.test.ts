import { expect, test } from "vitest";
import { NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { fingeringConsequence, fingeringRefusal, fingeringWords, ownFingerings } from "../../src/pipes/fingering-words.ts";
import { withFingering } from "../../src/pipes/setup-changes.ts";

const USUAL = defaultSetup("Bb");

test("a setup out of the box is fingered as usual, and nothing follows from it", () => {
  expect(fingeringWords(USUAL)).toBe("as usual");
  expect(ownFingerings(USUAL)).toEqual([]);
  for (const note of NINE_NOTES) expect(fingeringConsequence(USUAL, note)).toBeNull();
});

test("notes fingered otherwise are named, up to three of them", () => {
  const d = withFingering(USUAL, "d", "X XXX OOOO");
  const f = withFingering(d, "f", "X XOO XXXX");
  expect(fingeringWords(d)).toBe("as usual but for D");
  expect(fingeringWords(f)).toBe("as usual but for D and F");
  const more = withFingering(withFingering(f, "e", "X XXO XXXX"), "c", "X XXX XOOO");
  expect(fingeringWords(more)).toBe("your way on 4 notes");
});

test("low A with its first finger off is no longer divided by a G gracenote, which is that finger lifted", () => {
  expect(fingeringConsequence(withFingering(USUAL, "low-a", "X OXX XXXO"), "low-a")).toMatch(
    /^Two low As are no longer divided by .*a G gracenote/,
  );
});

test("two notes of the nine cannot be fingered alike, nor one like a cross-fingered note", () => {
  expect(fingeringRefusal(USUAL, "low-g", "X XXX XXXO")).toBe("So fingered, low G would be low A: two notes cannot be fingered alike.");
  expect(fingeringRefusal(USUAL, "c", "X XXX XOXX")).toBe("So fingered, C would be C natural. Change that one first.");
  expect(fingeringRefusal(USUAL, "c-natural", "X XXX XOOX")).toBe("So fingered, C natural would be C: two notes cannot be fingered alike.");
  expect(fingeringRefusal(USUAL, "d", "X XXX OOOO")).toBeNull();
});
