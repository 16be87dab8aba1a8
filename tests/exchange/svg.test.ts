import fc from "fast-check";
import { expect, test } from "vitest";
import { svgOfEachPage } from "../../src/exchange/svg.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { partPages } from "../support/part-pages.ts";
import { anyScore } from "../support/random-scores.ts";
import { xmlReading } from "../support/xml-reading.ts";

test("a file needs no font: all its words are outlines, and each says what it is to those who hear it", async () => {
  for (const file of await svgOfEachPage(partPages(lanternScore("B"), "pipes"), "Pipes")) {
    expect(file).not.toContain("<text");
    expect(file).not.toContain("font");
    for (const words of ["Paper Lantern Weather", "strike-in", "written in A, no key signature"])
      expect(file).toContain(`aria-label="${words}"`);
  }
});

test.each(["Ŵythnos Łagodna", "Šťastná Žízeň", "Χορός Καλάμι", "Гайда Ґанок", "F♯ & B♭"])("the title %s is all outlines", async (title) => {
  const [file = ""] = await svgOfEachPage(partPages({ ...lanternScore("B"), title }, "pipes"), "Pipes");
  expect(file).not.toContain("<text");
});

test("letters we have no outlines of are real text, as wide as was reckoned with; those beside them are outlines", async () => {
  const [file = ""] = await svgOfEachPage(partPages({ ...lanternScore("B"), title: "Night 紙の灯り" }, "pipes"), "Pipes");
  const group = /<g role="img" aria-label="Night 紙の灯り">(.*?<\/text>)<\/g>/.exec(file)?.[1] ?? "";
  expect(group).toMatch(/<text [^>]*textLength="\d+(\.\d+)?"[^>]*>紙の灯り<\/text>$/);
  // N, i, g, h, t; a space has no ink.
  expect([...group.matchAll(/<use /g)]).toHaveLength(5);
});

test("a page is as large as its paper, in millimetres", async () => {
  const sizeOf = async (paper: "a4" | "letter") => (await svgOfEachPage(partPages(lanternScore("B"), "pipes", paper), "Pipes"))[0];
  expect(await sizeOf("a4")).toContain('width="210mm" height="297mm"');
  expect(await sizeOf("letter")).toContain('width="215.9mm" height="279.4mm"');
});

test("any part is well-formed XML that uses every outline it defines, and only those", { timeout: PATIENCE }, async () => {
  await fc.assert(
    fc.asyncProperty(anyScore({ repeats: true }), async (score) => {
      for (const line of score.lines) {
        const pages = partPages(score, line.id);
        const files = await svgOfEachPage(pages, line.name);
        expect(files).toHaveLength(pages.length);
        for (const file of files) {
          expect(xmlReading(file).count("/*")).toBe(1);
          const defined = [...file.matchAll(/<path id="(\w+)"/g)].map(([, name]) => name);
          const used = new Set([...file.matchAll(/href="#(\w+)"/g)].map(([, name]) => name));
          expect(new Set(defined)).toEqual(used);
        }
      }
    }),
    { seed: 4_100, numRuns: cases(30, 1_000) },
  );
});
