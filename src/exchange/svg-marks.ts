import type { CircleMark, LineMark, Mark, TextMark } from "../engraving/drawing.ts";
import { GLYPH_UNIT, glyphOf } from "../engraving/glyph-table.ts";
import { textWidth } from "../engraving/text-width.ts";
import { shortNumber } from "./short-number.ts";
import type { TextOutlines } from "./text-outlines.ts";
import { type TextRun, textRuns } from "./text-runs.ts";
import { escaped } from "./xml.ts";

/*
 * Marks as SVG text that looks the same on a machine without our fonts: signs and letters are outlines, each defined once in the file
 * and used wherever it stands. A letter that our faces do not have is real text in whatever serif or sans the machine has, as wide as was
 * reckoned with; the letters beside it are outlines all the same.
 */

/** The outlines that a file uses, each under a short name. */
export class SvgOutlines {
  readonly #names = new Map<string, string>();
  readonly #letters: TextOutlines;

  constructor(letters: TextOutlines) {
    this.#letters = letters;
  }

  /** Whether a letter has an outline in the face of a text. */
  hasLetter(letter: string, { face, weight }: TextMark): boolean {
    return this.#letters(letter, face, weight) !== null;
  }

  /** The outline of a letter; empty for a space. */
  letter(letter: string, { face, weight }: TextMark): string {
    return this.#letters(letter, face, weight) ?? "";
  }

  /** The name under which an outline can be used. */
  nameOf(outline: string): string {
    const known = this.#names.get(outline);
    if (known !== undefined) return known;
    const name = `o${this.#names.size.toString(36)}`;
    this.#names.set(outline, name);
    return name;
  }

  /** All of them, for the file's `defs`. */
  definitions(): string {
    return [...this.#names].map(([outline, name]) => `<path id="${name}" d="${outline}"/>`).join("");
  }
}

/** One mark as an SVG element. */
export function svgOfMark(mark: Mark, used: SvgOutlines): string {
  switch (mark.kind) {
    case "glyph": {
      const scale = shortNumber(GLYPH_UNIT * mark.scale, 5);
      return `<use href="#${used.nameOf(glyphOf(mark.code).outline)}" transform="translate(${mark.x} ${mark.y}) scale(${scale})"/>`;
    }
    case "path":
      return `<path d="${mark.d}"/>`;
    case "line":
      return svgOfLine(mark);
    case "circle":
      return svgOfCircle(mark);
    case "text":
      return svgOfText(mark, used);
  }
}

function svgOfLine({ x1, y1, x2, y2, width }: LineMark): string {
  return `<path d="M${x1} ${y1}L${x2} ${y2}" stroke="#000" stroke-width="${width}"/>`;
}

const RING = 0.7;

function svgOfCircle({ x, y, radius, filled }: CircleMark): string {
  if (filled) return `<circle cx="${x}" cy="${y}" r="${radius}"/>`;
  return `<circle cx="${x}" cy="${y}" r="${shortNumber(radius - RING / 2, 3)}" fill="none" stroke="#000" stroke-width="${RING}"/>`;
}

function svgOfText(mark: TextMark, used: SvgOutlines): string {
  const runs = textRuns(mark, (letter) => used.hasLetter(letter, mark));
  const ink = runs.map((run) => (run.source ? outlinedRun(run, mark, used) : plainRun(run, mark))).join("");
  return `<g role="img" aria-label="${escaped(mark.text)}">${ink}</g>`;
}

function outlinedRun({ text, x }: TextRun<boolean>, mark: TextMark, used: SvgOutlines): string {
  const { face, weight, size, y } = mark;
  let pen = 0;
  let uses = "";
  for (const letter of text) {
    const outline = used.letter(letter, mark);
    if (outline !== "") uses += `<use href="#${used.nameOf(outline)}" x="${shortNumber(pen, 1)}"/>`;
    pen += (textWidth(letter, face, weight, size) * 1000) / size;
  }
  return `<g transform="translate(${shortNumber(x, 2)} ${y}) scale(${shortNumber(size / 1000, 5)})">${uses}</g>`;
}

function plainRun({ text, x, width }: TextRun<boolean>, { face, weight, size, y }: TextMark): string {
  const family = face === "sans" ? "Source Sans 3, Helvetica, Arial, sans-serif" : "Source Serif 4, Georgia, serif";
  const style = face === "italic" ? ' font-style="italic"' : "";
  const length = `textLength="${shortNumber(width, 2)}" lengthAdjust="spacingAndGlyphs"`;
  return `<text x="${shortNumber(x, 2)}" y="${y}" font-family="${family}" font-size="${size}" font-weight="${weight}"${style} ${length}>${escaped(text)}</text>`;
}
