import { expect, it } from "vitest";
import { partFileNames, plainFileName } from "../../src/exchange/file-names.ts";

it.each([
  ["Paper Lantern Weather", "Paper Lantern Weather"],
  ["  Wind/Rain: “Live”?  ", "Wind Rain “Live”"],
  ["a\tb\nc\u0000d", "a b c d"],
  ["...", "Untitled"],
  ["", "Untitled"],
  ["Møns Klint ♭", "Møns Klint ♭"],
])("The title %j becomes the file name %j, which every system takes", (title, name) => {
  expect(plainFileName(title)).toBe(name);
});

it("A name takes at most 96 bytes, and no letter is cut in two", () => {
  const name = plainFileName("🎏".repeat(60));
  expect(new TextEncoder().encode(name).length).toBe(96);
  expect(name).toBe("🎏".repeat(24));
});

it("No two parts get one file name, not even where capitals and small letters are the same", () => {
  expect(partFileNames("Set", ["Pipes", "pipes", "Pipes"])).toEqual(["Set - Pipes", "Set - pipes 2", "Set - Pipes 3"]);
});
