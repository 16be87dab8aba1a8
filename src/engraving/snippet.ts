import type { BarRange } from "../score/edit.ts";
import type { Line, Score } from "../score/score.ts";
import { boxAround, hundredths } from "./boxes.ts";
import type { Box } from "./drawing.ts";
import { headDrawing } from "./head-drawing.ts";
import { levelBars } from "./level-bars.ts";
import type { PlacedDrawing } from "./page-drawing.ts";
import { PLAIN_STYLE } from "./part-style.ts";
import { stretchWidths } from "./stretch-drawing.ts";
import { singleBars } from "./stretches.ts";
import { barWidths, type System } from "./systems.ts";

/** A few bars of a part on one line of staff, by themselves. */
export interface Snippet {
  readonly staves: readonly PlacedDrawing[];
  /** Around all ink, from the left end of the staff at 0; y = 0 is its top line. */
  readonly box: Box;
}

/** Bars of a part as wide as they are told to be, desk pixels; with chords over the pipes too, since that is what is compared. */
export function snippetOf(score: Score, line: Line, { first, last }: BarRange, width: number): Snippet {
  const style = { ...PLAIN_STYLE, chords: true };
  const head = headDrawing(score, line, first, { meter: false, number: false });
  const stretches = singleBars(score).slice(first, last + 1);
  const place = { spacing: "page", width: 0, firstInSystem: false, lastInSystem: false, style } as const;
  const natural = stretches.map((stretch) => stretchWidths(score, line, stretch, place).natural);
  const system: System = { first, last, stretches, natural, endsPart: false, mayBeRagged: false };
  let x = head.width;
  const bars = levelBars(score, line, system, barWidths(system, width - head.width, false), style).map((drawing): PlacedDrawing => {
    const placed = { drawing, x: hundredths(x), y: 0 };
    x += drawing.width;
    return placed;
  });
  const staves: readonly PlacedDrawing[] = [{ drawing: head, x: 0, y: 0 }, ...bars];
  const boxes = staves.map(({ drawing: { box }, x: left }) => ({ ...box, left: box.left + left, right: box.right + left }));
  return { staves, box: boxAround(boxes) };
}
