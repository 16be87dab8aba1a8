import type { Clef } from "../ensemble/player.ts";
import type { BarSign } from "./bar-signs.ts";
import type { BeamGroup } from "./beam-groups.ts";
import { hundredths } from "./boxes.ts";
import { type Mark, STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { glyphBox, glyphWidth, SIGN } from "./glyph-table.ts";
import { restCode } from "./rooms.ts";
import { staffY } from "./signature.ts";
import { tieMark } from "./ties.ts";

/*
 * Notes of another player, small and with their stems up, so that nobody takes them for his own. One head a sign.
 *
 *      ┌────┐   one beam for eighths, two for sixteenths; level, since they are only looked at
 *      │    │
 *      ●    ●
 */

const SCALE = 0.7;
const STEM = 2.6 * STAFF_SPACE;
const STEM_WIDTH = 0.7;
/** Between a flag and a ledger line under it. */
const CLEAR_OF_FLAG = 1.2;
/** Between a ledger line and a tie under it. */
const UNDER_LEDGER = 1.6;
const BEAM = 2.2;
const BEAM_STEP = 3.5;
/** The stub of a shorter note beside a longer one. */
const STUB = 5;

/** The marks of each sign in order, those of each beam, and the ties. */
export interface CueMarks {
  readonly signs: readonly (readonly Mark[])[];
  readonly beams: readonly (readonly Mark[])[];
  readonly ties: readonly Mark[];
}

/** Draws the signs with the left edges of their heads at `xs`. */
export function cueMarks(signs: readonly BarSign[], xs: readonly number[], groups: readonly BeamGroup[], clef: Clef): CueMarks {
  const tips = new Map<number, number>();
  for (const group of groups) {
    const highest = Math.min(...group.map((index) => headY(signs[index] as BarSign, clef)));
    for (const index of group) tips.set(index, hundredths(highest - STEM));
  }
  return {
    signs: signs.map((sign, index) => signMarks(sign, xs[index] as number, clef, tips.get(index) ?? null)),
    beams: groups.map((group) => beamMarks(group, signs, xs, tips.get(group[0] as number) as number)),
    ties: signs.flatMap((sign, index) => {
      const next = xs[index + 1];
      return sign.tied && next !== undefined ? [tieTo(sign, xs[index] as number, next, clef)] : [];
    }),
  };
}

function headCode({ value }: BarSign): number {
  return value.base === 1 ? SIGN.head.whole : value.base === 2 ? SIGN.head.half : SIGN.head.black;
}

function headY(sign: BarSign, clef: Clef): number {
  const [head] = sign.heads;
  return head === undefined ? STAFF_HEIGHT / 2 : staffY(head.spelling.letter, head.spelling.octave, clef);
}

/** Where the middle of a stem stands. */
function stemX(sign: BarSign, x: number): number {
  return hundredths(x + glyphWidth(headCode(sign)) * SCALE - STEM_WIDTH / 2);
}

function signMarks(sign: BarSign, x: number, clef: Clef, beamTip: number | null): readonly Mark[] {
  const [head] = sign.heads;
  if (head === undefined) {
    const y = (sign.value.base === 1 ? 1 : 2) * STAFF_SPACE;
    return [glyph(restCode(sign), x, y), ...dots(sign, x + glyphWidth(restCode(sign)) * SCALE, 1.5 * STAFF_SPACE)];
  }
  const y = headY(sign, clef);
  const marks: Mark[] = [glyph(headCode(sign), x, y), ...ledgerLines(x, glyphWidth(headCode(sign)) * SCALE, y)];
  if (head.accidental !== null) {
    const code = SIGN.accidentals[head.accidental + 2] as number;
    marks.push(glyph(code, x - glyphWidth(code) * SCALE - 1.5, y));
  }
  if (sign.value.base > 1) {
    const tip = beamTip ?? hundredths(singleTip(sign, y));
    const stem = stemX(sign, x);
    marks.push({ kind: "line", x1: stem, y1: hundredths(y - 0.6), x2: stem, y2: tip, width: STEM_WIDTH });
    if (beamTip === null && sign.value.base >= 8) marks.push(glyph(flagCode(sign), stem - STEM_WIDTH / 2, tip));
  }
  return [...marks, ...dots(sign, x + glyphWidth(headCode(sign)) * SCALE, y % STAFF_SPACE === 0 ? y - STAFF_SPACE / 2 : y)];
}

/** The tip of a stem under no beam: under the staff so high that its flag ends over the highest ledger line. */
function singleTip(sign: BarSign, y: number): number {
  const ledger = STAFF_HEIGHT + STAFF_SPACE;
  if (sign.value.base < 8 || y < ledger) return y - STEM;
  return Math.min(y - STEM, ledger - CLEAR_OF_FLAG - glyphBox(flagCode(sign), 0, 0, SCALE).bottom);
}

/** Upward flags of the eighth, the sixteenth and the 32nd are two code points apart. */
function flagCode({ value }: BarSign): number {
  return SIGN.flagsUp - 2 * (5 - Math.log2(value.base));
}

function dots({ value }: BarSign, right: number, y: number): readonly Mark[] {
  return Array.from({ length: value.dots }, (_, place) => glyph(SIGN.dot, right + 1.8 + place * 3, y));
}

function ledgerLines(x: number, width: number, y: number): readonly Mark[] {
  const lines: Mark[] = [];
  const line = (at: number) =>
    lines.push({ kind: "line", x1: hundredths(x - 1.6), y1: at, x2: hundredths(x + width + 1.6), y2: at, width: 0.8 });
  for (let at = -STAFF_SPACE; at >= y - 0.1; at -= STAFF_SPACE) line(at);
  for (let at = STAFF_HEIGHT + STAFF_SPACE; at <= y + 0.1; at += STAFF_SPACE) line(at);
  return lines;
}

function tieTo(sign: BarSign, x: number, nextX: number, clef: Clef): Mark {
  const width = glyphWidth(headCode(sign)) * SCALE;
  const y = headY(sign, clef);
  // A head in a space over the staff stands on its ledger line.
  const under = y < -STAFF_SPACE && y % STAFF_SPACE !== 0 ? UNDER_LEDGER : 0;
  return tieMark(x + width * 0.65, nextX + width * 0.4, y + STAFF_SPACE * 0.5 + under, 1);
}

function beamMarks(group: BeamGroup, signs: readonly BarSign[], xs: readonly number[], tip: number): readonly Mark[] {
  const stems = group.map((index) => stemX(signs[index] as BarSign, xs[index] as number));
  const counts = group.map((index) => Math.log2((signs[index] as BarSign).value.base) - 2);
  const marks: Mark[] = [];
  for (let level = 0; level < Math.max(...counts); level += 1) {
    const top = tip + level * BEAM_STEP;
    for (let from = 0; from < group.length; from += 1) {
      if ((counts[from] as number) <= level) continue;
      let to = from;
      while ((counts[to + 1] ?? 0) > level) to += 1;
      const left = stems[from] as number;
      const alone = from === group.length - 1 ? left - STUB : left + STUB;
      marks.push(bar(Math.min(left, to === from ? alone : left), Math.max(left, to === from ? alone : (stems[to] as number)), top));
      from = to;
    }
  }
  return marks;
}

function bar(left: number, right: number, top: number): Mark {
  const [x1, x2, y1, y2] = [left - STEM_WIDTH / 2, right + STEM_WIDTH / 2, top, top + BEAM].map(hundredths);
  return { kind: "path", d: `M${x1} ${y1}L${x1} ${y2}L${x2} ${y2}L${x2} ${y1}Z` };
}

function glyph(code: number, x: number, y: number): Mark {
  return { kind: "glyph", code, x: hundredths(x), y: hundredths(y), scale: SCALE };
}
