import type { Clef } from "../ensemble/player.ts";
import type { BarSign } from "./bar-signs.ts";
import { hundredths } from "./boxes.ts";
import { type LineMark, type Mark, STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { glyphBox, SIGN } from "./glyph-table.ts";
import { hasSecond, headWidth, type Stem } from "./rooms.ts";
import { staffY } from "./signature.ts";

/*
 * Where stems begin and end. Outwards is the way a stem points: heights are counted in that direction here, so that what holds for stems up
 * holds for stems down.
 */

export const STEM_WIDTH = 1.05;

/** From the head nearest the tip to the tip: an octave (common practice). */
const LENGTH = 3.5 * STAFF_SPACE;

/** A stem leaves its head a little off the middle. *Source:* SMuFL metadata of Bravura, stemUpSE and stemDownNW of noteheadBlack: 0.168 spaces. */
const AT_HEAD = 0.168 * STAFF_SPACE;

/** Between a flag and the head or ledger line that it reaches back to. */
const CLEAR_OF_FLAG = 1.5;

/** A stem as it is drawn. */
export interface StemLine {
  readonly x: number;
  readonly from: number;
  readonly tip: number;
}

/** 1 downwards, -1 upwards: what a height on the staff is multiplied with to count it in a stem's direction. */
export function outward(stem: Stem): 1 | -1 {
  return stem === "down" ? 1 : -1;
}

/** How many beams or flags a sign has: one for an eighth, three for a 32nd, none for a quarter and longer. */
export function beamCount({ value }: { readonly value: { readonly base: number } }): number {
  return Math.max(0, Math.log2(value.base) - 2);
}

/** The middle of a stem whose head begins at x. */
export function stemX(sign: BarSign, x: number, stem: Stem): number {
  return stem === "down" ? x + STEM_WIDTH / 2 : x + headWidth(sign) - STEM_WIDTH / 2;
}

/** The heights of a sign's nearest and furthest head from its tip, counted outwards. */
export function outwardReach(sign: BarSign, stem: Stem, clef: Clef): { readonly near: number; readonly far: number } {
  const heights = sign.heads.map(({ spelling }) => outward(stem) * staffY(spelling.letter, spelling.octave, clef));
  return { near: Math.max(...heights), far: Math.min(...heights) };
}

/** A stem always reaches the middle line, so that notes far from the staff hang on to it. */
export function middleLine(stem: Stem): number {
  return outward(stem) * 2 * STAFF_SPACE;
}

/** A stem with its tip at an outward height. */
export function stemTo(sign: BarSign, x: number, stem: Stem, clef: Clef, tip: number): StemLine {
  const { far } = outwardReach(sign, stem, clef);
  return { x: stemX(sign, x, stem), from: outward(stem) * (far + AT_HEAD), tip: outward(stem) * tip };
}

/** The stem of a sign that stands under no beam: long enough that its flags are clear of its heads and of their ledger lines. */
export function singleStem(sign: BarSign, x: number, stem: Stem, clef: Clef): StemLine {
  const { near, far } = outwardReach(sign, stem, clef);
  let tip = Math.max(near + LENGTH, middleLine(stem));
  const flags = beamCount(sign);
  if (flags > 0) {
    const reach = flagReach(flags, stem) + CLEAR_OF_FLAG;
    tip = Math.max(tip, near + reach + (stem === "down" || hasSecond(sign, clef) ? STAFF_SPACE / 2 : 0));
    // The ledger line next to the staff, where the note is so far on the other side of it.
    const ledger = outward(stem) === 1 ? -STAFF_SPACE : -(STAFF_HEIGHT + STAFF_SPACE);
    if (far <= ledger) tip = Math.max(tip, ledger + reach);
  }
  return stemTo(sign, x, stem, clef, tip);
}

/** A stem's stroke. */
export function stemMark({ x, from, tip }: StemLine): LineMark {
  return { kind: "line", x1: hundredths(x), y1: hundredths(from), x2: hundredths(x), y2: hundredths(tip), width: STEM_WIDTH };
}

/** The flags at a stem's tip; null for a sign without. */
export function flagMark(sign: BarSign, stem: Stem, { x, tip }: StemLine): (Mark & { readonly kind: "glyph" }) | null {
  const flags = beamCount(sign);
  if (flags === 0) return null;
  return { kind: "glyph", code: flagCode(flags, stem), x: hundredths(x - STEM_WIDTH / 2), y: hundredths(tip), scale: 1 };
}

/** The flags of each value follow each other, up before down. *Source:* SMuFL 1.4, U+E240. */
function flagCode(flags: number, stem: Stem): number {
  return SIGN.firstFlag + 2 * (flags - 1) + (stem === "down" ? 1 : 0);
}

/** How far flags reach back from the tip of their stem. */
function flagReach(flags: number, stem: Stem): number {
  const box = glyphBox(flagCode(flags, stem), 0, 0, 1);
  return stem === "down" ? -box.top : box.bottom;
}
