import { Accidental, type Beam, StaveNote, TickContext } from "vexflow/core";
import type { Clef } from "../ensemble/player.ts";
import type { BarSign } from "./bar-signs.ts";
import type { BeamGroup } from "./beam-groups.ts";
import { drawBeam } from "./beams.ts";
import { boxOf, hundredths } from "./boxes.ts";
import { type Box, type Mark, type MarkGroup, STAFF_SPACE } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { restCode, roomOfHeads, type Stem } from "./rooms.ts";
import { staffY } from "./signature.ts";
import { flagMark, type StemLine, singleStem, stemMark } from "./stems.ts";
import { engravingDesk, modifiersOfNote } from "./vexflow-stave.ts";

/** VexFlow's names of the accidentals, by semitones from -2. */
const ACCIDENTALS = ["bb", "b", "n", "#", "##"] as const;

/** VexFlow's pixels in a desk pixel. */
const SCALE = 10 / STAFF_SPACE;

/** From a head to its dot. */
const BEFORE_DOT = 2.2;

/** Notes of a bar: VexFlow draws heads, accidentals and ledger lines, we draw stems, flags, dots and beams. */
export interface DrawnNotes {
  /** One list for each sign, empty for a rest. */
  readonly notes: readonly (readonly Mark[])[];
  readonly beams: readonly (readonly Mark[])[];
}

/** What a bar's notes are drawn from. */
export interface NotesToDraw {
  readonly signs: readonly BarSign[];
  /** Left edges of the heads. */
  readonly xs: readonly number[];
  readonly beams: readonly BeamGroup[];
  readonly stems: readonly Stem[];
  readonly clef: Clef;
  /** The gracenotes of each sign, which beams go clear of; null where it has none. */
  readonly gracenotes: readonly (MarkGroup | null)[];
}

/** Draws the notes of a bar. Always new VexFlow objects: once drawn they cannot be moved. */
export function drawNotes({ signs, xs, beams, stems, clef, gracenotes }: NotesToDraw): DrawnNotes {
  const { recorder } = engravingDesk();
  const beamed = new Set(beams.flat());
  const heads: (readonly Mark[])[] = signs.map((sign, index) => {
    if (sign.heads.length === 0) return [];
    staveNote(sign, xs[index] as number, stems[index] ?? "down", clef).draw();
    return apart(recorder.take());
  });
  const notes = signs.map((sign, index): readonly Mark[] => {
    if (sign.heads.length === 0) return [];
    const [x, stem] = [xs[index] as number, stems[index] ?? "down"];
    const marks = [...(heads[index] as readonly Mark[])];
    if (sign.value.base > 1 && !beamed.has(index)) {
      const line = singleStem(sign, x, stem, clef);
      const flag = flagMark(sign, stem, line);
      marks.unshift(stemMark(line), ...(flag === null ? [] : [flag]));
    }
    if (sign.value.dots > 0) marks.push(...dotMarks(sign, x, clef, roomOfHeads(sign, stem, beamed.has(index), clef)));
    return marks;
  });
  const beamMarks = beams.map((group) => {
    const ink = group.flatMap((index) => [...(notes[index] as readonly Mark[]).map(boxOf), ...(gracenotes[index]?.marks ?? []).map(boxOf)]);
    const drawn = drawBeam(group, signs, xs, stems[group[0] ?? 0] ?? "down", clef, ink);
    for (const [place, index] of group.entries()) {
      notes[index] = [stemMark(drawn.stems[place] as StemLine), ...(notes[index] as readonly Mark[])];
    }
    return drawn.marks;
  });
  return { notes, beams: beamMarks };
}

/** Under a beam VexFlow draws neither stem nor flag. */
const NO_STEM = {} as Beam;

function staveNote(sign: BarSign, x: number, stem: Stem, clef: Clef): StaveNote {
  const note = new StaveNote({
    keys: sign.heads.map(({ spelling }) => `${spelling.letter}/${spelling.octave}`),
    duration: String(sign.value.base),
    dots: sign.value.dots,
    stemDirection: stem === "up" ? 1 : -1,
    clef,
  });
  for (const [index, { accidental }] of sign.heads.entries()) {
    if (accidental !== null) note.addModifier(new Accidental(ACCIDENTALS[accidental + 2] as string), index);
  }
  note.setStave(engravingDesk().stave);
  note.setBeam(NO_STEM);
  note.addToModifierContext(modifiersOfNote());
  new TickContext()
    .addTickable(note)
    .preFormat()
    .setX(x * SCALE);
  return note;
}

/** Between two accidentals of a chord. */
const BETWEEN_ACCIDENTALS = 0.6;

/** Accidentals that VexFlow sets a hair too close are moved apart, the later ones to the left. */
function apart(marks: readonly Mark[]): readonly Mark[] {
  const placed: Box[] = [];
  return marks.map((mark) => {
    if (mark.kind !== "glyph" || !SIGN.accidentals.some((code) => code === mark.code)) return mark;
    let moved = mark;
    for (let near = touching(placed, moved); near !== undefined; near = touching(placed, moved)) {
      moved = { ...moved, x: hundredths(near.left - BETWEEN_ACCIDENTALS - (boxOf(moved).right - moved.x)) };
    }
    placed.push(boxOf(moved));
    return moved;
  });
}

function touching(placed: readonly Box[], mark: Mark): Box | undefined {
  const box = boxOf(mark);
  return placed.find((one) => one.left < box.right && one.right > box.left && one.top < box.bottom && one.bottom > box.top);
}

/** Dots right of the heads, in a space: that of the head, or the one above its line. VexFlow's own need a browser to read a font's name. */
function dotMarks(sign: BarSign, x: number, clef: Clef, after: number): readonly Mark[] {
  const left = hundredths(x + after + BEFORE_DOT);
  const ys = sign.heads.map(({ spelling }) => {
    const y = staffY(spelling.letter, spelling.octave, clef);
    return y % STAFF_SPACE === 0 ? y - STAFF_SPACE / 2 : y;
  });
  return [...new Set(ys)].map((y) => ({ kind: "glyph", code: SIGN.dot, x: left, y, scale: 1 }));
}

/** A rest sign with its dots; one for the whole bar stands in the middle of what signs at either end leave of it, never before `x`. */
export function drawRest(sign: BarSign, x: number, middle: number): readonly Mark[] {
  const code = restCode(sign);
  const left = hundredths(sign.wholeBar ? Math.max(x, middle - glyphWidth(code) / 2) : x);
  const y = (sign.value.base === 1 ? 1 : 2) * STAFF_SPACE;
  const rest: Mark = { kind: "glyph", code, x: left, y, scale: 1 };
  if (sign.value.dots === 0) return [rest];
  return [rest, { kind: "glyph", code: SIGN.dot, x: hundredths(left + glyphWidth(code) + 2), y: 1.5 * STAFF_SPACE, scale: 1 }];
}
