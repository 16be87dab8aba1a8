import type { PageDrawing } from "../engraving/page-drawing.ts";

/** The scripts that our faces have letters of. Fonts and outlines come in one file each, so that only what a part needs is loaded. */
export type Script = "latin" | "latin-ext" | "greek" | "cyrillic";

/** Where a script's letters lie. *Source:* The Unicode Standard, block names. */
const BLOCKS: readonly (readonly [Script, RegExp])[] = [
  ["latin-ext", /[\u0100-\u024F\u1E00-\u1EFF]/],
  ["greek", /[\u0370-\u03FF]/],
  ["cyrillic", /[\u0400-\u052F]/],
];

/** The scripts that some words may need, each once; Latin always, since every part has figures and signs. */
export function scriptsOf(words: string): readonly Script[] {
  return ["latin", ...BLOCKS.flatMap(([script, letters]) => (letters.test(words) ? [script] : []))];
}

/** All words on some pages, in the order of the drawing. */
export function wordsOf(pages: readonly PageDrawing[]): readonly string[] {
  return pages.flatMap(({ groups, staves }) =>
    [...groups, ...staves.flatMap(({ drawing }) => drawing.groups)].flatMap(({ marks }) =>
      marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])),
    ),
  );
}
