import fc from "fast-check";
import { expect, test } from "vitest";
import { pagesOf } from "../../src/engraving/pages.ts";
import { svgOfPart } from "../../src/exchange/svg.ts";
import type { Line } from "../../src/score/score.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { anyScore } from "../support/random-scores.ts";
import { xmlReading } from "../support/xml-reading.ts";

test("a file in western letters needs no font: all its words are outlines, and each says what it is to those who hear it", () => {
  for (const file of svgOfPart(lanternScore("B"), "pipes")) {
    expect(file).not.toContain("<text");
    expect(file).not.toContain("font");
    for (const words of ["Paper Lantern Weather", "strike-in", "written in A, no key signature"])
      expect(file).toContain(`aria-label="${words}"`);
  }
});

test("letters we have no outlines of are real text, as wide as was reckoned with", () => {
  const [file] = svgOfPart({ ...lanternScore("B"), title: "紙の灯り" }, "pipes");
  expect(file).toMatch(/<text [^>]*textLength="\d+(\.\d+)?"[^>]*>紙の灯り<\/text>/);
});

test("a page is as large as its paper, in millimetres", () => {
  expect(svgOfPart(lanternScore("B"), "pipes")[0]).toContain('width="210mm" height="297mm"');
  expect(svgOfPart(lanternScore("B"), "pipes", { paper: "letter" })[0]).toContain('width="215.9mm" height="279.4mm"');
});

test("any part is well-formed XML that uses every outline it defines, and only those", { timeout: PATIENCE }, () => {
  fc.assert(
    fc.property(anyScore({ repeats: true }), (score) => {
      for (const line of score.lines) {
        const files = svgOfPart(score, line.id);
        const pages = pagesOf(score, line as Line, "a4");
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
