import { expect, test } from "vitest";
import { textWidth } from "../../src/engraving/text-width.ts";

test("a letter with a mark is as wide as the letter without it, unless the face makes it another width", () => {
  for (const [marked, plain] of [
    ["é", "e"],
    ["Ž", "Z"],
    ["ŵ", "w"],
    ["ή", "η"],
    ["й", "и"],
  ] as const)
    expect(textWidth(marked, "serif", 400, 1000), marked).toBe(textWidth(plain, "serif", 400, 1000));
  // The Greek capitals have their accent in front.
  expect(textWidth("Ή", "serif", 400, 1000)).toBeGreaterThan(textWidth("Η", "serif", 400, 1000));
});

test("a letter of no face of ours is as wide as 0.56 of the size, in every face", () => {
  for (const face of ["serif", "italic", "sans"] as const) expect(textWidth("紙", face, 400, 10)).toBeCloseTo(5.6, 9);
});
