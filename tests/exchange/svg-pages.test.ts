import { expect, it } from "vitest";
import { svgOfPart, svgOfWholePart } from "../../src/exchange/svg.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";

/** The first example eight times over, which is more than a page. */
function longScore(): Score {
  const score = scoreFromSavedForm(EXAMPLE_SKETCHES[0]?.text ?? "");
  const times = <Item>(list: readonly Item[]): readonly Item[] => Array.from({ length: 8 }, () => list).flat();
  const lines = score.lines.map((line) => ({ ...line, bars: times<never>(line.bars as never) }) as typeof line);
  return { ...score, frames: times(score.frames), lines };
}

const heightOf = (svg: string): number => Number(/viewBox="0 0 [\d.]+ ([\d.]+)"/.exec(svg)?.[1]);

it("A part of several pages is as many SVG files, or one as tall as all of them with every outline defined once", () => {
  const score = longScore();
  const id = score.lines[0]?.id ?? "";
  const pages = svgOfPart(score, id);
  const whole = svgOfWholePart(score, id);
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

it("One page alone is the same file either way but for its title", () => {
  const score = scoreFromSavedForm(EXAMPLE_SKETCHES.find(({ file }) => file.startsWith("the-long-light"))?.text ?? "");
  const id = score.lines[0]?.id ?? "";
  const [page, ...more] = svgOfPart(score, id);
  const untitled = (svg: string | undefined) => svg?.replace(/<title>.*<\/title>/, "");
  expect(more).toEqual([]);
  expect(untitled(svgOfWholePart(score, id))).toBe(untitled(page));
});
