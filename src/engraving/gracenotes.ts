import type { PlainNote } from "../pipes/chanter-note.ts";
import { writtenSpellingOf } from "../pipes/written-pitch.ts";
import { hundredths } from "./boxes.ts";
import { type Mark, STAFF_SPACE } from "./drawing.ts";
import { glyphBox, glyphWidth, SIGN } from "./glyph-table.ts";
import { staffY } from "./signature.ts";

/*
 * Gracenotes as pipers read them: small 32nds, stems up, unslashed, close before their own note.
 *
 *      ══════  three beams (or the flags of a single one)
 *      │  │  │
 *      ● ─┼─ ●  ○
 *         ●        heads `STEP` apart, the last `GAP` before the note's own
 */

/** Two thirds of the staff's own size. */
const SCALE = 0.66;
const HEAD = glyphWidth(SIGN.head.black) * SCALE;

/** From one head to the next. */
const STEP = HEAD + 0.9;

/** From the last head to the note, or to its accidental. A flag needs more where ink stands as high as it hangs, and so do two ledger lines. */
const GAP = 2.2;
const GAP_UNDER_FLAG = 6.2;
const GAP_OF_LEDGERS = 5;

/** How far a head and an accidental reach up from their middle: half a space, and as far as a flat or a natural does. */
const HEAD_TOP = STAFF_SPACE / 2;
const ACCIDENTAL_TOP = Math.max(...SIGN.accidentals.map((code) => -glyphBox(code, 0, 0, 1).top));

/** How far a flag hangs down from the tip of its stem, air under it included. */
const FLAG = glyphBox(SIGN.flagsUp, 0, 0, SCALE).bottom + 1;

/** From the highest head of a group to the top of its stems. */
const STEM = 2.4 * STAFF_SPACE;

/** Stems of a low group still reach the top of the staff, so that gracenotes are seen at one height. */
const LOWEST_TIP = -STAFF_SPACE * 0.4;

const STEM_WIDTH = 0.7;
const BEAM = 1.7;
const BEAM_STEP = 2.75;
const BEAMS = 3;

/** How much room a group takes before a note whose highest head is at y. */
export function gracenotesWidth(gracenotes: readonly PlainNote[], noteY: number, hasAccidental = false): number {
  if (gracenotes.length === 0) return 0;
  return (gracenotes.length - 1) * STEP + HEAD + gapBefore(gracenotes, noteY, hasAccidental);
}

/** y of the highest ink of a group: the tips of its stems, or the flag over a single one. */
export function gracenotesTop(gracenotes: readonly PlainNote[]): number {
  return tipOf(gracenotes.map(gracenoteY)) + (gracenotes.length === 1 ? glyphBox(SIGN.flagsUp, 0, 0, SCALE).top : 0);
}

/** The group, ending before `right`: the left edge of its note or of the note's accidental. */
export function gracenoteMarks(gracenotes: readonly PlainNote[], right: number, noteY: number, hasAccidental = false): readonly Mark[] {
  const left = right - gracenotesWidth(gracenotes, noteY, hasAccidental);
  const ys = gracenotes.map(gracenoteY);
  const tip = tipOf(ys);
  const marks: Mark[] = [];
  for (const [index, y] of ys.entries()) {
    const x = hundredths(left + index * STEP);
    const stem = hundredths(x + HEAD - STEM_WIDTH / 2);
    marks.push({ kind: "glyph", code: SIGN.head.black, x, y, scale: SCALE });
    marks.push({ kind: "line", x1: stem, y1: hundredths(y - 0.4), x2: stem, y2: hundredths(tip), width: STEM_WIDTH });
    if (y <= -STAFF_SPACE)
      marks.push({ kind: "line", x1: hundredths(x - 1.4), y1: -STAFF_SPACE, x2: hundredths(x + HEAD + 1.4), y2: -STAFF_SPACE, width: 0.8 });
  }
  const firstStem = left + HEAD - STEM_WIDTH;
  if (ys.length === 1) marks.push({ kind: "glyph", code: SIGN.flagsUp, x: hundredths(firstStem), y: hundredths(tip), scale: SCALE });
  else marks.push(...beams(firstStem, left + (ys.length - 1) * STEP + HEAD, tip));
  return marks;
}

function beams(left: number, right: number, tip: number): readonly Mark[] {
  return Array.from({ length: BEAMS }, (_, beam) => {
    const top = tip + beam * BEAM_STEP;
    const [x1, x2, y1, y2] = [left, right, top, top + BEAM].map(hundredths);
    return { kind: "path", d: `M${x1} ${y1}L${x1} ${y2}L${x2} ${y2}L${x2} ${y1}Z` };
  });
}

function tipOf(ys: readonly number[]): number {
  return Math.min(Math.min(...ys) - STEM, LOWEST_TIP);
}

function gapBefore(gracenotes: readonly PlainNote[], noteY: number, hasAccidental: boolean): number {
  const ys = gracenotes.map(gracenoteY);
  const top = noteY - (hasAccidental ? ACCIDENTAL_TOP : HEAD_TOP);
  if (ys.length === 1 && top < tipOf(ys) + FLAG) return GAP_UNDER_FLAG;
  return (ys.at(-1) as number) <= -STAFF_SPACE && noteY <= -STAFF_SPACE ? GAP_OF_LEDGERS : GAP;
}

/** y of a gracenote's head. */
export function gracenoteY(note: PlainNote): number {
  const { letter, octave } = writtenSpellingOf(note);
  return staffY(letter, octave, "treble");
}
