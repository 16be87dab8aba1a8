import type { Face } from "./drawing.ts";
import table from "./text-advances.json" with { type: "json" };

const placeOf = new Map([...table.letters].map((letter, index) => [letter, index]));
const advances = table.advances as Readonly<Record<string, readonly number[]>>;

/** What a letter that is in no table is taken to be wide, thousandths of the size: about an "n" of the faces. */
const UNKNOWN = 560;

/** How wide words are when set in one of the text faces, in the unit of the size. Kerning is left out: it is below a pixel in a word. */
export function textWidth(text: string, face: Face, weight: 400 | 600, size: number): number {
  const faceAdvances = advances[`${face}${weight}`] ?? advances[`${face}400`] ?? [];
  let sum = 0;
  for (const letter of text) sum += faceAdvances[placeOf.get(letter) ?? placeOfBase(letter)] ?? UNKNOWN;
  return (sum * size) / 1000;
}

/** A letter with a mark that is not in the table is as wide as the letter without it. */
function placeOfBase(letter: string): number {
  const place = placeOf.get(letter.normalize("NFD").charAt(0)) ?? -1;
  placeOf.set(letter, place);
  return place;
}
