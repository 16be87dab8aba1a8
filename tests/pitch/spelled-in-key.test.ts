import fc from "fast-check";
import { expect, it } from "vitest";
import { alterInKey, fifthsOf, keyFromName, scalePitchClasses } from "../../src/pitch/key-signature.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { spelledInKey } from "../../src/pitch/spelled-in-key.ts";
import { spellingOf } from "../../src/pitch/spelling.ts";
import { anyKey, seeded } from "../support/pitches.ts";

const semitone = fc.integer({ min: 21, max: 108 });

it("A semitone spelled in a key sounds the same semitone", () => {
  fc.assert(
    fc.property(semitone, anyKey, (number, key) => {
      fc.pre(Math.abs(fifthsOf(key)) <= 6);
      expect(semitoneOf(spelledInKey(number, key))).toBe(number);
    }),
    seeded,
  );
});

it("A note of the key is spelled as the signature has it", () => {
  fc.assert(
    fc.property(semitone, anyKey, (number, key) => {
      fc.pre(Math.abs(fifthsOf(key)) <= 6 && scalePitchClasses(key).includes(number % 12));
      const { letter, alter } = spellingOf(spelledInKey(number, key));
      expect(alter).toBe(alterInKey(key, letter));
    }),
    seeded,
  );
});

it("The five notes outside C major are C sharp, E flat, F sharp, G sharp, B flat; octaves change at C", () => {
  const key = keyFromName("C major");
  expect([61, 63, 66, 68, 70].map((number) => spelledInKey(number, key))).toEqual(["C#4", "Eb4", "F#4", "G#4", "Bb4"]);
  expect(spelledInKey(71, keyFromName("Gb major"))).toBe("Cb5");
  expect(spelledInKey(60, keyFromName("C# minor"))).toBe("B#3");
});

it("The leading tone of a minor key is raised, not the flat of the note above: G sharp in A minor, A sharp in B minor", () => {
  expect(spelledInKey(68, keyFromName("A minor"))).toBe("G#4");
  expect(spelledInKey(70, keyFromName("B minor"))).toBe("A#4");
});
