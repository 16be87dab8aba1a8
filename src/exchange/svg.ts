import type { MarkGroup } from "../engraving/drawing.ts";
import { MILLIMETRES, type PageDrawing } from "../engraving/page-drawing.ts";
import { shortNumber } from "./short-number.ts";
import { SvgOutlines, svgOfMark } from "./svg-marks.ts";
import { type TextOutlines, textOutlinesFor } from "./text-outlines.ts";
import { escaped } from "./xml.ts";

/**
 * Pages as SVG files, one each, since a page is what is printed and placed. Every file stands alone: it needs no font and names nothing
 * outside itself. Ink only.
 * @param title what they are, for those who hear it; each adds its page number
 */
export async function svgOfEachPage(pages: readonly PageDrawing[], title: string): Promise<readonly string[]> {
  const letters = await textOutlinesFor(pages);
  return pages.map((page, index) => svgOf([page], `${title}, page ${index + 1} of ${pages.length}`, letters));
}

/** Pages of one size as a single SVG file, under one another: where a part has to be one file. Otherwise as `svgOfEachPage`. */
export async function svgOfPages(pages: readonly PageDrawing[], title: string): Promise<string> {
  return svgOf(pages, title, await textOutlinesFor(pages));
}

function svgOf(pages: readonly PageDrawing[], title: string, letters: TextOutlines): string {
  const used = new SvgOutlines(letters);
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
