import { type FontInfo, RenderContext } from "vexflow/core";
import { hundredths } from "./boxes.ts";
import { type Mark, STAFF_SPACE } from "./drawing.ts";

/** VexFlow's staff space is 10 of its pixels; a mark's is 7. */
const SCALE = STAFF_SPACE / 10;

/** The size at which VexFlow sets signs of the staff's own size, in points. */
const FULL_SIZE = 30;

/**
 * What VexFlow draws into: it keeps the marks and nothing else. Colours, groups and ids are not asked for, so their setters do nothing;
 * recording everything as it comes costs a fifth of the engraving time.
 */
export class Recorder extends RenderContext {
  #marks: Mark[] = [];
  #points: number[] = [];
  #lineWidth = 1;
  #size = FULL_SIZE;
  readonly #widths: number[] = [];

  fillStyle = "";
  strokeStyle = "";

  /** What was drawn since this was last called. */
  take(): readonly Mark[] {
    const marks = this.#marks;
    this.#marks = [];
    return marks;
  }

  fillText(text: string, x: number, y: number): this {
    const code = text.codePointAt(0);
    if (code !== undefined)
      this.#marks.push({ kind: "glyph", code, x: scaled(x), y: scaled(y), scale: hundredths(this.#size / FULL_SIZE) });
    return this;
  }

  beginPath(): this {
    this.#points = [];
    return this;
  }

  moveTo(x: number, y: number): this {
    this.#points.push(scaled(x), scaled(y));
    return this;
  }

  lineTo(x: number, y: number): this {
    return this.moveTo(x, y);
  }

  stroke(): this {
    const [x1 = 0, y1 = 0, x2 = x1, y2 = y1] = this.#points;
    this.#marks.push({ kind: "line", x1, y1, x2, y2, width: scaled(this.#lineWidth) });
    return this;
  }

  fill(): this {
    let d = "";
    for (let index = 0; index < this.#points.length; index += 2) {
      d += `${index === 0 ? "M" : "L"}${this.#points[index]} ${this.#points[index + 1]}`;
    }
    this.#marks.push({ kind: "path", d: `${d}Z` });
    return this;
  }

  closePath(): this {
    return this;
  }

  setLineWidth(width: number): this {
    this.#lineWidth = width;
    return this;
  }

  setFont(font?: string | FontInfo): this {
    if (typeof font === "object") this.#size = Number(font.size ?? FULL_SIZE);
    return this;
  }

  save(): this {
    this.#widths.push(this.#lineWidth);
    return this;
  }

  restore(): this {
    this.#lineWidth = this.#widths.pop() ?? 1;
    return this;
  }

  getFont(): string {
    return `${this.#size}pt Bravura`;
  }

  rect(): this {
    throw new RangeError("No note is drawn with rectangles.");
  }

  fillRect(): this {
    throw new RangeError("No note is drawn with rectangles.");
  }

  bezierCurveTo(): this {
    throw new RangeError("No note is drawn with curves; ties are ours.");
  }

  quadraticCurveTo(): this {
    throw new RangeError("No note is drawn with curves; ties are ours.");
  }

  arc(): this {
    throw new RangeError("No note is drawn with arcs.");
  }

  measureText(): { x: number; y: number; width: number; height: number } {
    throw new RangeError("The measurer measures.");
  }

  clear(): void {}
  openGroup(): void {}
  closeGroup(): void {}
  openRotation(): void {}
  closeRotation(): void {}
  add(): void {}
  setFillStyle(): this {
    return this;
  }
  setBackgroundFillStyle(): this {
    return this;
  }
  setStrokeStyle(): this {
    return this;
  }
  setShadowColor(): this {
    return this;
  }
  setShadowBlur(): this {
    return this;
  }
  setLineCap(): this {
    return this;
  }
  setLineDash(): this {
    return this;
  }
  scale(): this {
    return this;
  }
  resize(): this {
    return this;
  }
  clearRect(): this {
    return this;
  }
  pointerRect(): this {
    return this;
  }
}

function scaled(value: number): number {
  return hundredths(value * SCALE);
}
