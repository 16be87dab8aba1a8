/// <reference path="./pdfkit.d.ts" />
import type PDFDocument from "pdfkit";
import type { PdfObject } from "pdfkit";
import type { CircleMark, GlyphMark, LineMark, Mark, MarkGroup, TextMark } from "../engraving/drawing.ts";
import { GLYPH_UNIT, glyphOf } from "../engraving/glyph-table.ts";
import { MILLIMETRES, type PageDrawing } from "../engraving/page-drawing.ts";
import type { PaperFont, PaperFonts } from "./paper-fonts.ts";
import { pdfCircle, pdfPathOf } from "./pdf-paths.ts";
import { shortNumber } from "./short-number.ts";
import { textRuns } from "./text-runs.ts";

/** PDF's own unit, a 72nd of an inch, in a desk pixel. */
const POINTS = (MILLIMETRES / 25.4) * 72;

const RING = 0.7;

/** Where reckoned and real width differ by less than this share, letters keep their own width. */
const SLIGHT = 0.002;

/**
 * Paints drawings on the pages of one PDF document. The music's signs are outlines, each in the file once and drawn wherever it stands, so
 * that copying or searching meets words only; words are text in fonts that the file carries.
 */
export class PdfPainter {
  readonly #document: PDFDocument;
  readonly #fonts: PaperFonts;
  readonly #signs = new Map<number, PdfObject>();
  readonly #registered = new Set<PaperFont>();

  constructor(document: PDFDocument, fonts: PaperFonts) {
    this.#document = document;
    this.#fonts = fonts;
  }

  /** Adds a page. */
  paint(page: PageDrawing): void {
    this.#document.addPage({ size: [page.width * POINTS, page.height * POINTS], margin: 0 });
    // From here on everything is in desk pixels, y downwards, as the drawing has it.
    this.#document.addContent(`${shortNumber(POINTS, 6)} 0 0 ${shortNumber(POINTS, 6)} 0 0 cm`);
    this.#paintGroups(page.groups);
    for (const { drawing, x, y } of page.staves) {
      this.#document.addContent(`q 1 0 0 1 ${shortNumber(x, 2)} ${shortNumber(y, 2)} cm`);
      this.#paintGroups(drawing.groups);
      this.#document.addContent("Q");
    }
  }

  /** All straight strokes are one shape, painted last: everything is the same black, so the order is not seen. */
  #paintGroups(groups: readonly MarkGroup[]): void {
    const strokes: string[] = [];
    for (const { marks } of groups) {
      for (const mark of marks) {
        if (mark.kind === "line") strokes.push(strokeShape(mark));
        else this.#paintMark(mark);
      }
    }
    if (strokes.length > 0) this.#document.addContent(`${strokes.join("\n")}\nf`);
  }

  #paintMark(mark: Exclude<Mark, LineMark>): void {
    switch (mark.kind) {
      case "glyph":
        this.#paintSign(mark);
        return;
      case "path":
        this.#document.addContent(`${pdfPathOf(mark.d)}f`);
        return;
      case "circle":
        this.#document.addContent(circleOf(mark));
        return;
      case "text":
        this.#paintText(mark);
    }
  }

  #paintSign({ code, x, y, scale }: GlyphMark): void {
    const name = `S${code.toString(16).toUpperCase()}`;
    this.#document.page.xobjects[name] ??= this.#signOf(code);
    const unit = shortNumber(GLYPH_UNIT * scale, 5);
    this.#document.addContent(`q ${unit} 0 0 ${unit} ${shortNumber(x, 2)} ${shortNumber(y, 2)} cm /${name} Do Q`);
  }

  /** The outline of a sign as an object of the file, in thousandths of the music font's em. */
  #signOf(code: number): PdfObject {
    const known = this.#signs.get(code);
    if (known !== undefined) return known;
    const { outline, box } = glyphOf(code);
    const [left, top, right, bottom] = box;
    // A little room all round, since the box is rounded and ink beyond it would be cut.
    const sign = this.#document.ref({ Type: "XObject", Subtype: "Form", BBox: [left - 2, top - 2, right + 2, bottom + 2], Resources: {} });
    sign.end(`${pdfPathOf(outline)}f`);
    this.#signs.set(code, sign);
    return sign;
  }

  #paintText(mark: TextMark): void {
    const { y, face, weight, size } = mark;
    for (const { source: font, text, x, width } of textRuns(mark, (letter) => this.#fonts(letter, face, weight))) {
      if (font === null) {
        this.#paintNumbers(text, x, width, mark);
        continue;
      }
      this.#choose(font, size);
      const natural = this.#document.widthOfString(text);
      const stretched = natural > 0 && Math.abs(width / natural - 1) > SLIGHT;
      const scaling = stretched ? { horizontalScaling: hundredth(100 * (width / natural)) } : {};
      this.#document.text(text, x, y, { lineBreak: false, baseline: "alphabetic", ...scaling });
    }
  }

  #choose(font: PaperFont, size: number): void {
    if (!this.#registered.has(font)) this.#document.registerFont(font.name, font.bytes);
    this.#registered.add(font);
    this.#document.font(font.name).fontSize(size);
  }

  /**
   * Letters that no font has: each is a frame with its Unicode number, so that it is seen to be there and can be told from others; copying
   * and searching meet the letter itself.
   *
   *     ┌──┐
   *     │7D│   U+7D19
   *     │19│
   *     └──┘
   */
  #paintNumbers(text: string, x: number, width: number, { y, size }: TextMark): void {
    const letters = [...text];
    const step = width / letters.length;
    this.#document.markContent("Span", { actual: text });
    for (const [index, letter] of letters.entries()) {
      if (letter.trim() === "") continue;
      const left = x + index * step;
      this.#document.addContent(frameOf(left + 0.06 * size, y - 0.7 * size, step - 0.12 * size, 0.8 * size, 0.04 * size));
      const digits = (letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0");
      const half = Math.ceil(digits.length / 2);
      this.#paintDigits(digits.slice(0, half), left + step / 2, y - 0.34 * size, size);
      this.#paintDigits(digits.slice(half), left + step / 2, y - 0.01 * size, size);
    }
    this.#document.endMarkedContent();
  }

  #paintDigits(digits: string, middle: number, y: number, size: number): void {
    const font = this.#fonts("0", "sans", 400);
    if (font === null) throw new RangeError("The sans has figures.");
    this.#choose(font, (0.72 * size) / digits.length);
    const left = middle - this.#document.widthOfString(digits) / 2;
    this.#document.text(digits, left, y, { lineBreak: false, baseline: "alphabetic" });
  }
}

/**
 * A straight stroke as the shape it covers, always turning the same way round so that crossing strokes add up. A stroke as such, and a
 * lone filled rectangle too, is snapped to whole dots by some viewers: on a screen the lines of a staff come out one thin, the next thick.
 */
function strokeShape({ x1, y1, x2, y2, width }: LineMark): string {
  const length = Math.hypot(x2 - x1, y2 - y1);
  if (length === 0) return "";
  const [across, down] = [((y1 - y2) / length) * (width / 2), ((x2 - x1) / length) * (width / 2)];
  const corners = [
    [x1 + across, y1 + down],
    [x2 + across, y2 + down],
    [x2 - across, y2 - down],
    [x1 - across, y1 - down],
  ].map((corner) => corner.map((value) => shortNumber(value, 2)).join(" "));
  return `${corners[0]} m ${corners.slice(1).join(" l ")} l h`;
}

function circleOf({ x, y, radius, filled }: CircleMark): string {
  if (filled) return `${pdfCircle(x, y, radius)}f`;
  return `${RING} w ${pdfCircle(x, y, radius - RING / 2)}S`;
}

function frameOf(left: number, top: number, width: number, height: number, stroke: number): string {
  return `${shortNumber(stroke, 3)} w ${[left, top, width, height].map(hundredth).join(" ")} re S`;
}

function hundredth(value: number): number {
  return Number(shortNumber(value, 2));
}
