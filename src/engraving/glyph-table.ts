import type { Box } from "./drawing.ts";
import { STAFF_SPACE } from "./drawing.ts";
import table from "./glyphs.json" with { type: "json" };

/** A sign of the music font. */
export interface Glyph {
  /** How far the next sign would stand, in thousandths of the em, which is four staff spaces. */
  readonly advance: number;
  /** Left, top, right, bottom of its ink from its origin, y downwards, in thousandths of the em. */
  readonly box: readonly [left: number, top: number, right: number, bottom: number];
  /** As the `d` of an SVG path from its origin, in thousandths of the em. */
  readonly outline: string;
}

/**
 * SMuFL code points of the signs that are drawn.
 * *Source:* Standard Music Font Layout 1.4, glyph tables.
 */
export const SIGN = {
  clef: { treble: 0xe050, alto: 0xe05c, bass: 0xe062 },
  /** The figure 0 of a meter; 1 to 9 follow. */
  meterFigure: 0xe080,
  head: { whole: 0xe0a2, half: 0xe0a3, black: 0xe0a4 },
  dot: 0xe1e7,
  /** The flag of an eighth up; the others follow. */
  firstFlag: 0xe240,
  /** The flags of a 32nd up. */
  flagsUp: 0xe244,
  /** By semitones, from -2. */
  accidentals: [0xe264, 0xe260, 0xe261, 0xe262, 0xe263],
  wholeRest: 0xe4e3,
  /** A whole rest that hangs from a line of its own. */
  wholeRestOutside: 0xe4f4,
  tuplet: { 2: 0xe882, 3: 0xe883 },
} as const;

const glyphs = table as unknown as Readonly<Record<string, Glyph>>;

/** Desk pixels in a thousandth of the music font's em. */
export const GLYPH_UNIT = (4 * STAFF_SPACE) / 1000;

/**
 * A sign by its SMuFL code point.
 * @throws RangeError when the table has none; scripts/outlines.mjs lists those it has.
 */
export function glyphOf(code: number): Glyph {
  const glyph = glyphs[code];
  if (glyph === undefined) throw new RangeError(`No outline for U+${code.toString(16).toUpperCase()}.`);
  return glyph;
}

/** How wide a sign is, in desk pixels at the staff's own size. */
export function glyphWidth(code: number): number {
  return glyphOf(code).advance * GLYPH_UNIT;
}

/** Where the ink of a sign lies when its origin stands at a point, in desk pixels. */
export function glyphBox(code: number, x: number, y: number, scale: number): Box {
  const [left, top, right, bottom] = glyphOf(code).box;
  const unit = GLYPH_UNIT * scale;
  return { left: x + left * unit, top: y + top * unit, right: x + right * unit, bottom: y + bottom * unit };
}
