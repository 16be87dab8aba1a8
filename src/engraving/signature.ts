import type { Clef } from "../ensemble/player.ts";
import type { Letter } from "../pitch/concert-pitch.ts";
import type { Key } from "../pitch/key.ts";
import { fifthsOf } from "../pitch/key-signature.ts";
import { letterIndex } from "../pitch/letter.ts";
import type { Meter } from "../score/frame.ts";
import { hundredths } from "./boxes.ts";
import { type Mark, STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";

/** Marks side by side and how much room they take. */
export interface Strip {
  readonly marks: readonly Mark[];
  readonly width: number;
}

/** Staff steps above C0 of each clef's bottom line: E4, F3, G2. */
const BOTTOM_LINE: Readonly<Record<Clef, number>> = { treble: 30, alto: 24, bass: 18 };

/** Which line, counted from the top, a clef sits on. */
const CLEF_LINE: Readonly<Record<Clef, number>> = { treble: 3, alto: 2, bass: 1 };

/** Steps of the sharps and flats of a signature above the treble clef's bottom line, in the order they are written. */
const SHARP_STEPS = [8, 5, 9, 6, 3, 7];
const FLAT_STEPS = [4, 7, 3, 6, 2, 5];

/** How far the signature of each clef lies under the treble's, in steps. */
const SIGNATURE_SHIFT: Readonly<Record<Clef, number>> = { treble: 0, alto: -1, bass: -2 };

/** Where a letter of an octave stands: y of its line or space. */
export function staffY(letter: Letter, octave: number, clef: Clef): number {
  return yOfStep(octave * 7 + letterIndex(letter) - BOTTOM_LINE[clef]);
}

/** The clef sign, drawn from x. */
export function clefStrip(clef: Clef, x: number): Strip {
  const code = SIGN.clef[clef];
  return { marks: [{ kind: "glyph", code, x: hundredths(x), y: CLEF_LINE[clef] * STAFF_SPACE, scale: 1 }], width: glyphWidth(code) };
}

/**
 * A key's signature, drawn from x. Where it replaces another, naturals take back what was there only if the new one is empty: otherwise it speaks
 * for itself, as is now usual.
 */
export function signatureStrip(key: Key, before: Key | null, clef: Clef, x: number): Strip {
  const marks: Mark[] = [];
  let pen = x;
  const put = (code: number, step: number) => {
    marks.push({ kind: "glyph", code, x: hundredths(pen), y: yOfStep(step + SIGNATURE_SHIFT[clef]), scale: 1 });
    pen += glyphWidth(code) + 0.5;
  };
  const fifths = fifthsOf(key);
  if (fifths === 0 && before !== null) {
    for (const step of signatureSteps(fifthsOf(before))) put(SIGN.accidentals[2], step);
  }
  const code = fifths > 0 ? SIGN.accidentals[3] : SIGN.accidentals[1];
  for (const step of signatureSteps(fifths)) put(code, step);
  return { marks, width: pen - x };
}

/** A meter's two figures, one over the other, drawn from x. */
export function meterStrip(meter: Meter, x: number): Strip {
  const widthOf = (figures: string) => [...figures].reduce((sum, figure) => sum + glyphWidth(SIGN.meterFigure + Number(figure)), 0);
  const rows = [String(meter.beats), String(meter.unit)];
  const width = Math.max(...rows.map(widthOf));
  const marks = rows.flatMap((figures, row): readonly Mark[] => {
    let pen = x + (width - widthOf(figures)) / 2;
    return [...figures].map((figure) => {
      const code = SIGN.meterFigure + Number(figure);
      const mark: Mark = { kind: "glyph", code, x: hundredths(pen), y: STAFF_SPACE * (row === 0 ? 1 : 3), scale: 1 };
      pen += glyphWidth(code);
      return mark;
    });
  });
  return { marks, width };
}

function signatureSteps(fifths: number): readonly number[] {
  return fifths > 0 ? SHARP_STEPS.slice(0, fifths) : FLAT_STEPS.slice(0, -fifths);
}

function yOfStep(step: number): number {
  return STAFF_HEIGHT - (step * STAFF_SPACE) / 2;
}
