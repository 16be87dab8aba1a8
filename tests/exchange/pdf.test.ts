import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { lettersWithoutFont } from "../../src/exchange/paper-fonts.ts";
import { pdfOf } from "../../src/exchange/pdf.ts";
import { pdfPathOf } from "../../src/exchange/pdf-paths.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { partPages } from "../support/part-pages.ts";
import { anyScore } from "../support/random-scores.ts";

const score = lanternScore("B");
const about = { title: score.title, player: "Pipes", revision: 12 };
const hashOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

test("the same pages give the same bytes, whenever they are written", async () => {
  const first = hashOf(await pdfOf(partPages(score, "pipes"), about));
  await new Promise((resolve) => setTimeout(resolve, 1100));
  expect(hashOf(await pdfOf(partPages(score, "pipes"), about))).toBe(first);
});

test("every page is told of when it is done", async () => {
  const [page] = partPages(score, "pipes");
  if (page === undefined) throw new RangeError("a part has a page");
  const told: number[] = [];
  await pdfOf([page, page, page], about, (done) => told.push(done));
  expect(told).toEqual([1, 2, 3]);
});

test("letters that no font has are told, each once; all letters of western, Greek and Cyrillic names have one", async () => {
  const without = (title: string) => lettersWithoutFont(partPages({ ...score, title }, "pipes"));
  expect(await without("紙の灯り, 紙")).toEqual(["紙", "の", "灯", "り"]);
  expect(await without("Ŵ Ł ő Š ß Œ ẞ Ω Ж ґ ♯♭♮ “quoted” 1′2″ −")).toEqual([]);
});

test("outlines become the operators of PDF: small commands count from the pen, and quadratic curves become cubic", () => {
  expect(pdfPathOf("m10 20l5 0q3 0 3 3z")).toBe("10 20 m\n15 20 l\n17 20 18 21 18 23 c\nh\n");
  expect(pdfPathOf("M1 1L2 2C3 3 4 4 5 5Z")).toBe("1 1 m\n2 2 l\n3 3 4 4 5 5 c\nh\n");
  // After closing, the pen is where the shape began.
  expect(pdfPathOf("m1 1l4 0zm2 2l1 0z")).toBe("1 1 m\n5 1 l\nh\n3 3 m\n4 3 l\nh\n");
  expect(() => pdfPathOf("m0 0a1 1 0 0 0 2 2")).toThrow(RangeError);
});

test("any part of any score becomes a whole PDF file with as many pages as were drawn", { timeout: PATIENCE }, async () => {
  await fc.assert(
    fc.asyncProperty(anyScore({ repeats: true }), async (any) => {
      for (const line of any.lines) {
        const pages = partPages(any, line.id);
        const text = Buffer.from(await pdfOf(pages, about)).toString("latin1");
        expect(text.startsWith("%PDF-1.7\n")).toBe(true);
        expect(text.endsWith("%%EOF\n")).toBe(true);
        expect([...text.matchAll(/\/Type \/Page\n/g)]).toHaveLength(pages.length);
        // The table at the end leads to the byte at which each object begins.
        const table = Number(/startxref\n(\d+)/.exec(text)?.[1]);
        const offsets = [...text.slice(table).matchAll(/^(\d{10}) 00000 n/gm)].map(([, offset]) => Number(offset));
        expect(offsets.length).toBeGreaterThan(5);
        for (const [index, offset] of offsets.entries()) expect(text.startsWith(`${index + 1} 0 obj`, offset)).toBe(true);
      }
    }),
    { seed: 4_200, numRuns: cases(10, 300) },
  );
});
