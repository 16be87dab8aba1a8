import type { PageDrawing, Paper } from "../../src/engraving/page-drawing.ts";
import { pagesOf } from "../../src/engraving/pages.ts";
import { lineOf } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";

/**
 * The pages of one player's part.
 * @throws RangeError when nobody is called that
 */
export function partPages(score: Score, id: string, paper: Paper = "a4"): readonly PageDrawing[] {
  const line = lineOf(score, id);
  if (line === null) throw new RangeError(`nobody is called ${id}`);
  return pagesOf(score, line, paper);
}

/** A score so many times over, for parts of several pages. */
export function repeated(score: Score, count: number): Score {
  const times = <Item>(list: readonly Item[]): readonly Item[] => Array.from({ length: count }, () => list).flat();
  const lines = score.lines.map((line) => ({ ...line, bars: times<never>(line.bars as never) }) as typeof line);
  return { ...score, frames: times(score.frames), lines };
}
