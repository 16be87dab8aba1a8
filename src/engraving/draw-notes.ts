import { Accidental, Beam, StaveNote, TickContext } from "vexflow/core";
import type { Clef } from "../ensemble/player.ts";
import type { BarSign } from "./bar-signs.ts";
import type { BeamGroup } from "./beam-groups.ts";
import { hundredths } from "./boxes.ts";
import type { LineMark, Mark } from "./drawing.ts";
import { STAFF_SPACE } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { headWidth, restCode, type Stem } from "./rooms.ts";
import { staffY } from "./signature.ts";
import { engravingDesk, modifiersOfNote } from "./vexflow-stave.ts";

/** VexFlow's names of the accidentals, by semitones from -2. */
const ACCIDENTALS = ["bb", "b", "n", "#", "##"] as const;

/** VexFlow's pixels in a desk pixel. */
const SCALE = 10 / STAFF_SPACE;

/** From a head to its dot. */
const BEFORE_DOT = 2.2;

/** Notes of a bar as VexFlow draws them: heads, stems, flags, accidentals, dots and ledger lines for each sign; beams apart. */
export interface DrawnNotes {
  /** One list for each sign, empty for a rest. */
  readonly notes: readonly (readonly Mark[])[];
  readonly beams: readonly (readonly Mark[])[];
}

/** Draws the notes with the left edges of their heads at `xs`. Always new VexFlow objects: once drawn they cannot be moved. */
export function drawNotes(
  signs: readonly BarSign[],
  xs: readonly number[],
  beams: readonly BeamGroup[],
  stems: readonly Stem[],
  clef: Clef,
): DrawnNotes {
  const { recorder } = engravingDesk();
  const notes = signs.map((sign, index) =>
    sign.heads.length === 0 ? null : staveNote(sign, xs[index] as number, stems[index] ?? "down", clef),
  );
  const vexBeams = beams.map((group) => new Beam(group.map((index) => notes[index] as StaveNote)));
  for (const beam of vexBeams) beam.postFormat();
  const marks: (readonly Mark[])[] = notes.map((note) => {
    if (note === null) return [];
    note.draw();
    return recorder.take();
  });
  for (const [index, sign] of signs.entries()) {
    if (sign.value.dots > 0 && sign.heads.length > 0)
      marks[index] = [...(marks[index] ?? []), ...dotMarks(sign, xs[index] as number, clef)];
  }
  const beamMarks = vexBeams.map((beam, place) => {
    beam.setContext(recorder).draw();
    const drawn = recorder.take();
    // A beam draws the stems of its notes, in their order, before itself. They belong to the notes.
    const group = beams[place] as BeamGroup;
    const strokes = drawn.filter((mark): mark is LineMark => mark.kind === "line");
    for (const [order, index] of group.entries()) {
      const stem = strokes[order];
      if (stem !== undefined) marks[index] = [stem, ...(marks[index] ?? [])];
    }
    return drawn.filter((mark) => mark.kind !== "line");
  });
  return { notes: marks, beams: beamMarks };
}

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
  note.addToModifierContext(modifiersOfNote());
  new TickContext()
    .addTickable(note)
    .preFormat()
    .setX(x * SCALE);
  return note;
}

/** Dots right of the heads, in a space: that of the head, or the one above its line. VexFlow's own need a browser to read a font's name. */
function dotMarks(sign: BarSign, x: number, clef: Clef): readonly Mark[] {
  const left = hundredths(x + headWidth(sign) + BEFORE_DOT);
  const ys = sign.heads.map(({ spelling }) => {
    const y = staffY(spelling.letter, spelling.octave, clef);
    return y % STAFF_SPACE === 0 ? y - STAFF_SPACE / 2 : y;
  });
  return [...new Set(ys)].map((y) => ({ kind: "glyph", code: SIGN.dot, x: left, y, scale: 1 }));
}

/** A rest sign with its dots; a rest for the whole bar stands in the middle of it. */
export function drawRest(sign: BarSign, x: number, barWidth: number): readonly Mark[] {
  const code = restCode(sign);
  const left = hundredths(sign.wholeBar ? (barWidth - glyphWidth(code)) / 2 : x);
  const y = (sign.value.base === 1 ? 1 : 2) * STAFF_SPACE;
  const rest: Mark = { kind: "glyph", code, x: left, y, scale: 1 };
  if (sign.value.dots === 0) return [rest];
  return [rest, { kind: "glyph", code: SIGN.dot, x: hundredths(left + glyphWidth(code) + 2), y: 1.5 * STAFF_SPACE, scale: 1 }];
}
