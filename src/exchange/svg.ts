import type { MarkGroup } from "../engraving/drawing.ts";
import { MILLIMETRES, type PageDrawing, type Paper } from "../engraving/page-drawing.ts";
import { pagesOf } from "../engraving/pages.ts";
import type { LineId } from "../score/line-id.ts";
import { lineOf } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import { SvgOutlines, shortNumber, svgOfMark } from "./svg-marks.ts";
import { escaped } from "./xml.ts";

/** What may be chosen about SVG pages; what is left out gets the value in brackets. */
export interface SvgOptions {
  /** (a4) */
  readonly paper?: Paper;
}

/**
 * One part as SVG files, one for each page, since a page is what is printed and placed. Every file stands alone: it needs no font and
 * names nothing outside itself. Ink only.
 * @throws RangeError when the score has no such line.
 */
export function svgOfPart(score: Score, id: LineId, options: SvgOptions = {}): readonly string[] {
  const line = lineOf(score, id);
  if (line === null) throw new RangeError(`The score has no line ${id}.`);
  const pages = pagesOf(score, line, options.paper ?? "a4");
  return pages.map((page, index) => svgOfPage(page, `${score.title}, ${line.name}, page ${index + 1} of ${pages.length}`));
}

/**
 * One part as a single SVG file, its pages under one another: where a part has to be one file. Otherwise as `svgOfPart`.
 * @throws RangeError when the score has no such line.
 */
export function svgOfWholePart(score: Score, id: LineId, options: SvgOptions = {}): string {
  const line = lineOf(score, id);
  if (line === null) throw new RangeError(`The score has no line ${id}.`);
  return svgOfPages(pagesOf(score, line, options.paper ?? "a4"), `${score.title}, ${line.name}`);
}

/** One page as a whole SVG file, as large as its paper. */
export function svgOfPage(page: PageDrawing, title: string): string {
  return svgOfPages([page], title);
}

/** Pages of one size as one file, under one another. */
function svgOfPages(pages: readonly PageDrawing[], title: string): string {
  const used = new SvgOutlines();
  const width = Math.max(...pages.map((page) => page.width));
  const height = pages.reduce((sum, page) => sum + page.height, 0);
  let top = 0;
  const bodies = pages.map((page) => {
    const body = pageBody(page, used);
    const placed = top === 0 ? body : `<g transform="translate(0 ${shortNumber(top, 2)})">\n${body}\n</g>`;
    top += page.height;
    return placed;
  });
  const size = `width="${shortNumber(width * MILLIMETRES, 2)}mm" height="${shortNumber(height * MILLIMETRES, 2)}mm"`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 ${shortNumber(width, 2)} ${shortNumber(height, 2)}">`,
    `<title>${escaped(title)}</title>`,
    `<defs>${used.definitions()}</defs>`,
    `<rect width="100%" height="100%" fill="#fff"/>`,
    ...bodies,
    "</svg>",
    "",
  ].join("\n");
}

function pageBody(page: PageDrawing, used: SvgOutlines): string {
  const staves = page.staves.map(({ drawing, x, y }) => `<g transform="translate(${x} ${y})">${inkOf(drawing.groups, used)}</g>`);
  return `${inkOf(page.groups, used)}\n${staves.join("\n")}`;
}

function inkOf(groups: readonly MarkGroup[], used: SvgOutlines): string {
  return groups.flatMap(({ marks }) => marks.map((mark) => svgOfMark(mark, used))).join("");
}
