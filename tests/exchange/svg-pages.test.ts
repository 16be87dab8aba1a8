import { expect, it } from "vitest";
import { svgOfEachPage, svgOfPages } from "../../src/exchange/svg.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { partPages, repeated } from "../support/part-pages.ts";

const heightOf = (svg: string): number => Number(/viewBox="0 0 [\d.]+ ([\d.]+)"/.exec(svg)?.[1]);

it("A part of several pages is as many SVG files, or one as tall as all of them with every outline defined once", async () => {
  const score = repeated(scoreFromSavedForm(EXAMPLE_SKETCHES[0]?.text ?? ""), 8);
  const drawn = partPages(score, score.lines[0]?.id ?? "");
  const pages = await svgOfEachPage(drawn, "Pipes");
  const whole = await svgOfPages(drawn, "Pipes");
  expect(pages.length).toBeGreaterThan(1);
  expect(heightOf(whole)).toBeCloseTo(
    pages.reduce((sum, page) => sum + heightOf(page), 0),
    0,
  );
  const names = [...whole.matchAll(/<path id="([^"]+)"/g)].map(([, name]) => name);
  expect(new Set(names).size).toBe(names.length);
  const used = new Set([...whole.matchAll(/href="#([^"]+)"/g)].map(([, name]) => name));
  expect([...used].filter((name) => !names.includes(name))).toEqual([]);
  const count = (text: string) => [...text.matchAll(/<use /g)].length;
  // Every page repeats its head, so the ink is the same in sum.
  expect(count(whole)).toBe(pages.reduce((sum, page) => sum + count(page), 0));
});

it("One page alone is the same file either way but for its title", async () => {
  const drawn = partPages(lanternScore("B"), "pipes");
  const [page, ...more] = await svgOfEachPage(drawn, "Pipes");
  const untitled = (svg: string | undefined) => svg?.replace(/<title>.*<\/title>/, "");
  expect(more).toEqual([]);
  expect(untitled(await svgOfPages(drawn, "Pipes"))).toBe(untitled(page));
});
