import type { Face, TextMark } from "../engraving/drawing.ts";
import type { PageDrawing } from "../engraving/page-drawing.ts";
import { type Script, scriptsOf, wordsOf } from "./letter-scripts.ts";

/** Outlines as the files have them: for each face and weight one for each letter, in thousandths of the size; `-` where the face has none. */
interface StoredOutlines {
  readonly letters: string;
  readonly outlines: Readonly<Record<string, readonly string[]>>;
}

/** The outline of a letter in a face as the `d` of an SVG path, y downwards from the baseline; empty for a space, null where there is none. */
export type TextOutlines = (letter: string, face: Face, weight: TextMark["weight"]) => string | null;

// Without import attributes, which the development server passes on to the browser although it serves a script.
const FILES: Readonly<Record<Script, () => Promise<{ readonly default: StoredOutlines }>>> = {
  latin: () => import("./text-outlines-latin.json"),
  "latin-ext": () => import("./text-outlines-latin-ext.json"),
  greek: () => import("./text-outlines-greek.json"),
  cyrillic: () => import("./text-outlines-cyrillic.json"),
};

/** Fetches the outlines for all words of some pages. */
export async function textOutlinesFor(pages: readonly PageDrawing[]): Promise<TextOutlines> {
  const files = await Promise.all(scriptsOf(wordsOf(pages).join("")).map(async (script) => (await FILES[script]()).default));
  const shelves = files.map(({ letters, outlines }) => ({
    places: new Map([...letters].map((letter, index) => [letter, index])),
    outlines,
  }));
  return (letter, face, weight) => {
    for (const { places, outlines } of shelves) {
      const outline = outlines[face === "italic" ? "italic400" : `${face}${weight}`]?.[places.get(letter) ?? -1];
      if (outline !== undefined && outline !== "-") return outline;
    }
    return null;
  };
}
