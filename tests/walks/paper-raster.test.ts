import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CHROMIUM_ARGUMENTS, findChromium } from "../../scripts/find-chromium.mjs";
import { hasPoppler } from "../../scripts/find-poppler.mjs";
import { MILLIMETRES, type PageDrawing } from "../../src/engraving/page-drawing.ts";
import { handoutKindsFor, handoutOf } from "../../src/exchange/handouts.ts";
import { pdfOf } from "../../src/exchange/pdf.ts";
import { svgOfEachPage } from "../../src/exchange/svg.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";
import { blurred, largestDifference, meanDifference } from "../support/grey-page.ts";
import { partPages } from "../support/part-pages.ts";
import { type GreyPage, pageOfPdf } from "../support/poppler.ts";

/* The same page painted twice by others: the PDF by poppler, the SVG by Chromium. Where the package poppler-utils is missing, this is skipped. */

const DOTS = 150;

/**
 * Grey from 0 to 255. Measured on the three examples at 150 dots to the inch: on the mean 1.1 to 2.2, all of it where edges are smoothed,
 * which poppler does darker than Chromium. The same pages a single dot (0.17 mm) aside differ by 2.7 to 5.3.
 */
const MOST_ON_THE_MEAN = 2.5;

/** Each dot as the mean of the 7 x 7 around it: measured 37 to 65 at most, at small words and thick rules. A notehead that is missing makes 254. */
const MOST_ANYWHERE = 80;

let browser: Browser;
beforeAll(async () => {
  browser = await chromium.launch({ executablePath: findChromium() ?? "chromium", args: CHROMIUM_ARGUMENTS });
});
afterAll(() => browser.close());

const outside = test.skipIf(!hasPoppler());
const examples = EXAMPLE_SKETCHES.map(({ file, text }) => [file, scoreFromSavedForm(text)] as const);

outside.each(examples)("the PDF pages of %s look like its SVG pages: no mark is missing and none is elsewhere", async (_, score) => {
  const handouts = score.lines
    .slice(0, 2)
    .flatMap((line) => handoutKindsFor(line).map((kind) => handoutOf(score, line, kind, { paper: "a4", chords: kind === "learner" })));
  for (const { label, pages } of handouts) {
    const pdf = await pdfOf(pages, { title: score.title, player: label, revision: score.revision });
    for (const [index, page] of pages.entries()) {
      const fromPdf = pageOfPdf(pdf, index + 1, DOTS);
      const fromSvg = await paintedSvg(page, fromPdf);
      const place = `${label}, page ${index + 1}`;
      expect(meanDifference(fromPdf, fromSvg), place).toBeLessThan(MOST_ON_THE_MEAN);
      expect(largestDifference(blurred(fromPdf), blurred(fromSvg)), place).toBeLessThan(MOST_ANYWHERE);
    }
  }
});

outside(
  "the measure can tell: a page a single dot aside is another on the mean, and one without one notehead is another somewhere",
  async () => {
    const [, score] = examples[0] ?? [];
    if (score === undefined) throw new RangeError("there are examples");
    const [page] = partPages(score, "pipes");
    if (page === undefined) throw new RangeError("a part has a page");
    const fromPdf = pageOfPdf(await pdfOf([page], { title: "", player: "", revision: 0 }), 1, DOTS);
    const fromSvg = await paintedSvg(page, fromPdf);
    expect(meanDifference(fromPdf, fromSvg, 1)).toBeGreaterThan(1.5 * MOST_ON_THE_MEAN);
    const fromLess = await paintedSvg(withoutOneHead(page), fromPdf);
    expect(largestDifference(blurred(fromPdf), blurred(fromLess))).toBeGreaterThan(1.5 * MOST_ANYWHERE);
  },
);

/** The page without the first filled notehead of full size on it. */
function withoutOneHead(page: PageDrawing): PageDrawing {
  let taken = false;
  const staves = page.staves.map((stave) => {
    const groups = stave.drawing.groups.map((group) => {
      const marks = group.marks.filter((mark) => {
        const isHead = !taken && mark.kind === "glyph" && mark.code === 0xe0a4 && mark.scale === 1;
        taken ||= isHead;
        return !isHead;
      });
      return { ...group, marks };
    });
    return { ...stave, drawing: { ...stave.drawing, groups } };
  });
  if (!taken) throw new RangeError("the page has a note");
  return { ...page, staves };
}

/** A page as Chromium paints its SVG file, on as many dots as another picture, the last of which its page fills in part only. */
async function paintedSvg(drawn: PageDrawing, { width, height }: GreyPage): Promise<GreyPage> {
  const [svg = ""] = await svgOfEachPage([drawn], "a page");
  const dotsOf = (length: number): number => ((length * MILLIMETRES) / 25.4) * DOTS;
  const page = await browser.newPage();
  const grey = await page.evaluate(
    async ([text, across, down, pageAcross, pageDown]) => {
      const image = new Image();
      image.src = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
      await image.decode();
      const canvas = new OffscreenCanvas(across, down);
      const context = canvas.getContext("2d") as OffscreenCanvasRenderingContext2D;
      context.fillStyle = "white";
      context.fillRect(0, 0, across, down);
      context.drawImage(image, 0, 0, pageAcross, pageDown);
      const { data } = context.getImageData(0, 0, across, down);
      let letters = "";
      for (let place = 0; place < data.length; place += 4) letters += String.fromCharCode(data[place] as number);
      return btoa(letters);
    },
    [svg, width, height, dotsOf(drawn.width), dotsOf(drawn.height)] as const,
  );
  await page.close();
  return { width, height, pixels: new Uint8Array(Buffer.from(grey, "base64")) };
}
