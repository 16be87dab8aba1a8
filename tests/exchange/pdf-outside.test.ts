import { expect, test } from "vitest";
import { hasPoppler } from "../../scripts/find-poppler.mjs";
import type { PageDrawing } from "../../src/engraving/page-drawing.ts";
import { pdfOf } from "../../src/exchange/pdf.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { partPages } from "../support/part-pages.ts";
import { factsOfPdf, fontsOfPdf, wordsOfPdf } from "../support/poppler.ts";

/*
 * PDF files read by another's program: poppler's, from the package poppler-utils. `npm test` installs it where it can.
 */
const outside = test.skipIf(!hasPoppler());

const score = lanternScore("B");
const about = { title: score.title, player: "Pipes", revision: score.revision };
const pdfWithTitle = (title: string) => pdfOf(partPages({ ...score, title }, "pipes"), { ...about, title });

outside("every font of a part is in the file, cut to the letters used, and says which letters they are", async () => {
  for (const id of score.lines.map((line) => line.id)) {
    const fonts = fontsOfPdf(await pdfOf(partPages(score, id), about));
    expect(fonts.length).toBeGreaterThan(2);
    for (const font of fonts) expect(font, font.name).toMatchObject({ embedded: true, subset: true, unicode: true });
  }
});

outside("title, names, directions and syllables are words that can be copied, and the signs of the music are not", async () => {
  const pages = partPages(score, "pipes");
  // How far words stand apart is told by spaces, so any number of them counts as one.
  const oneSpaced = (text: string): string => text.replace(/\s+/g, " ").trim();
  const words = oneSpaced(wordsOfPdf(await pdfOf(pages, about)));
  for (const expected of new Set(textsOf(pages))) expect(words).toContain(oneSpaced(expected));
  // The private use area is where music fonts have their signs.
  expect(words).not.toMatch(/[\uE000-\uF8FF]/);
});

outside.each(["Ŵythnos Łagodna", "Šťastná Žízeň", "Χορός Καλάμι", "Гайда Ґанок", "F♯ & <B♭>"])(
  "the title %s can be copied",
  async (title) => {
    const bytes = await pdfWithTitle(title);
    expect(wordsOfPdf(bytes)).toContain(title);
    expect(factsOfPdf(bytes).get("Title")).toBe(`${title} - Pipes`);
  },
);

outside("letters that no font has can still be copied from the frames that stand for them", async () => {
  expect(wordsOfPdf(await pdfWithTitle("Night 紙の灯り"))).toContain("紙の灯り");
});

outside("the file says title, player and revision, and no time", async () => {
  const facts = factsOfPdf(await pdfOf(partPages(score, "pipes"), about));
  expect(facts.get("Title")).toBe("Paper Lantern Weather - Pipes");
  expect(facts.get("Subject")).toBe(`Pipes, revision ${score.revision}`);
  expect(facts.get("Creator")).toBe("Ninefold");
  expect(facts.get("Page size")).toContain("(A4)");
  expect([...facts.keys()].filter((name) => /date/i.test(name))).toEqual([]);
});

function textsOf(pages: readonly PageDrawing[]): readonly string[] {
  return pages
    .flatMap(({ groups, staves }) => [...groups, ...staves.flatMap(({ drawing }) => drawing.groups)])
    .flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])));
}
