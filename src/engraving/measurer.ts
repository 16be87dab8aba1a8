import { glyphOf } from "./glyph-table.ts";

/** As much of a canvas's text metrics as VexFlow reads, in pixels. */
interface TextSize {
  readonly width: number;
  readonly actualBoundingBoxLeft: number;
  readonly actualBoundingBoxRight: number;
  readonly actualBoundingBoxAscent: number;
  readonly actualBoundingBoxDescent: number;
  readonly fontBoundingBoxAscent: number;
  readonly fontBoundingBoxDescent: number;
  readonly alphabeticBaseline: number;
  readonly emHeightAscent: number;
  readonly emHeightDescent: number;
  readonly hangingBaseline: number;
  readonly ideographicBaseline: number;
}

const CSS_PIXELS_PER_POINT = 4 / 3;

/**
 * Stands in for the canvas with which VexFlow measures: it knows the music font from its SMuFL metadata, so that the same score gives
 * the same drawing in Node, in a worker and in any browser. One frozen answer for each font and text.
 */
export class Measurer {
  /** As VexFlow writes it: `normal normal 30pt Bravura,Academico`. */
  font = "";
  readonly #known = new Map<string, Map<string, TextSize>>();

  getContext(): this {
    return this;
  }

  measureText(text: string): TextSize {
    let sizes = this.#known.get(this.font);
    if (sizes === undefined) {
      sizes = new Map();
      this.#known.set(this.font, sizes);
    }
    let size = sizes.get(text);
    if (size === undefined) {
      size = measured(text, emInPixels(this.font));
      sizes.set(text, size);
    }
    return size;
  }
}

function emInPixels(font: string): number {
  const match = /([\d.]+)(pt|px)/.exec(font);
  if (match === null) throw new RangeError(`No size in the font ${JSON.stringify(font)}.`);
  return Number(match[1]) * (match[2] === "pt" ? CSS_PIXELS_PER_POINT : 1);
}

/** Signs one after the other, as a line of text. VexFlow is only ever given signs of the music font. */
function measured(text: string, em: number): TextSize {
  const unit = em / 1000;
  let pen = 0;
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const sign of text) {
    const { advance, box } = glyphOf(sign.codePointAt(0) ?? 0);
    left = Math.min(left, pen + box[0]);
    top = Math.min(top, box[1]);
    right = Math.max(right, pen + box[2]);
    bottom = Math.max(bottom, box[3]);
    pen += advance;
  }
  if (pen === 0) [left, top, right, bottom] = [0, 0, 0, 0];
  return Object.freeze({
    width: pen * unit,
    actualBoundingBoxLeft: -left * unit,
    actualBoundingBoxRight: right * unit,
    actualBoundingBoxAscent: -top * unit,
    actualBoundingBoxDescent: bottom * unit,
    fontBoundingBoxAscent: em,
    fontBoundingBoxDescent: em,
    alphabeticBaseline: 0,
    emHeightAscent: em,
    emHeightDescent: 0,
    hangingBaseline: em,
    ideographicBaseline: 0,
  });
}
