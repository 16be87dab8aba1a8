import fc from "fast-check";
import { zipSync } from "fflate";
import { expect, it } from "vitest";
import { songFromBytes } from "../../../src/exchange/reading/read-song.ts";
import { ReadError } from "../../../src/units/read-error.ts";
import { cases, PATIENCE } from "../../support/cases.ts";
import { LANTERN_ABC, LANTERN_XML, midiFile, midiNoteSteps, midiText } from "../../support/small-songs.ts";

/* Damaged files: whatever happens to a file's bytes, reading ends soon, with a whole song or a refusal. */

const text = new TextEncoder();
const FILES: readonly (readonly [name: string, bytes: Uint8Array])[] = [
  ["lantern.musicxml", text.encode(LANTERN_XML)],
  ["lantern.abc", text.encode(LANTERN_ABC)],
  ["lantern.mxl", zipSync({ "song.xml": text.encode(LANTERN_XML) })],
  [
    "lantern.mid",
    midiFile([
      [
        [0, midiText(3, "Tune")],
        ...midiNoteSteps([
          [60, 0, 480],
          [64, 480, 900],
          [62, 960, 1440],
        ]),
      ],
    ]),
  ],
];

/** Pieces that matter to some reader, put where they do not belong. */
const STRANGERS = [
  "[",
  "]",
  "{",
  '"',
  "|:",
  "::",
  "(3",
  "(99:9:9",
  ">",
  ">>>>>>",
  "Z999",
  "A999999/999",
  "&",
  "V:9\n",
  "K:\n",
  "\0",
  "<",
  "</note>",
  "9",
  "-1",
  "1e9",
  "NaN",
  "w: a-b|c\n",
  "\\",
  "M:3/0\n",
  "\u00ff",
];

type Damage = { readonly at: number; readonly act: "cut" | "byte" | "stranger" | "double" | "end"; readonly value: number };

const damage: fc.Arbitrary<Damage> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  act: fc.constantFrom("cut", "byte", "stranger", "stranger", "double", "end"),
  value: fc.nat({ max: 255 }),
});

function damaged(bytes: Uint8Array, { at, act, value }: Damage): Uint8Array {
  const place = Math.floor(at * bytes.length);
  const [head, tail] = [bytes.subarray(0, place), bytes.subarray(place)];
  const joined = (...pieces: readonly Uint8Array[]): Uint8Array => Uint8Array.from(pieces.flatMap((piece) => [...piece]));
  switch (act) {
    case "cut":
      return joined(head, tail.subarray(value));
    case "byte":
      return joined(head, Uint8Array.of(value), tail.subarray(1));
    case "stranger":
      return joined(head, text.encode(STRANGERS[value % STRANGERS.length] ?? ""), tail);
    case "double":
      return joined(head, tail.subarray(0, value), tail);
    case "end":
      return head;
  }
}

it.each(FILES)(
  "%s, damaged, is read whole or refused by name, within 1 s",
  (name, bytes) => {
    fc.assert(
      fc.property(fc.array(damage, { minLength: 1, maxLength: 6 }), (damages) => {
        const odd = damages.reduce(damaged, bytes);
        const begun = performance.now();
        try {
          const song = songFromBytes(odd, name);
          for (const { notes } of song.lines) {
            for (const [index, note] of notes.entries()) {
              expect(note.duration).toBeGreaterThan(0);
              expect(note.semitone).toBeGreaterThanOrEqual(0);
              expect(note.semitone).toBeLessThanOrEqual(127);
              const next = notes[index + 1];
              if (next) expect(note.onset + note.duration).toBeLessThanOrEqual(next.onset);
              expect(song.bars[note.bar]?.onset).toBeLessThanOrEqual(note.onset);
            }
          }
        } catch (error) {
          if (!(error instanceof ReadError)) throw error;
          expect(error.where.startsWith(name)).toBe(true);
        }
        expect(performance.now() - begun).toBeLessThan(1000);
      }),
      { seed: 20261125, numRuns: cases(400, 20_000) },
    );
  },
  PATIENCE,
);
