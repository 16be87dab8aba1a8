import { parseHoles } from "../pipes/fingerings.ts";
import type { Holes } from "../pipes/pipe-setup.ts";
import { hundredths } from "./boxes.ts";
import type { Mark } from "./drawing.ts";

/** How large a chart is drawn: the radius of a hole, from one to the next, and what the hands stand apart more than that. */
export interface ChartSize {
  readonly radius: number;
  readonly step: number;
  readonly gap: number;
}

/** Over the notes of a part. */
const SMALL: ChartSize = { radius: 2.1, step: 5.3, gap: 2.8 };

/** Upright under the notes of a learner's part. */
const UPRIGHT: ChartSize = { radius: 2.4, step: 6, gap: 3.2 };

/** From the first hole's edge to the last one's. */
export function chartLength({ radius, step, gap }: ChartSize): number {
  return 7 * step + 2 * gap + 2 * radius;
}

/** How wide a chart over a note is. */
export const CHART_WIDTH = chartLength(SMALL);

/** How tall. */
export const CHART_HEIGHT = 2 * SMALL.radius;

/** Eight finger holes in a row, thumb first, the hands apart: discs are closed, rings open, a ring with a point half closed. */
export function holeChart(holes: Holes, left: number, y: number): readonly Mark[] {
  return chartMarks(holes, SMALL, (along) => ({ x: hundredths(left + along), y: hundredths(y) }));
}

/** The same upright, as a chanter is held: thumb on top. */
export function holeColumn(holes: Holes, middle: number, top: number, size = UPRIGHT): readonly Mark[] {
  return chartMarks(holes, size, (along) => ({ x: hundredths(middle), y: hundredths(top + along) }));
}

/** The holes, each put where it lies along the chart. */
function chartMarks(
  holes: Holes,
  { radius, step, gap }: ChartSize,
  put: (along: number) => { readonly x: number; readonly y: number },
): readonly Mark[] {
  return parseHoles(holes).flatMap((hole, index): readonly Mark[] => {
    const hands = index === 0 ? 0 : index < 4 ? 1 : 2;
    const ring: Mark = { kind: "circle", ...put(radius + index * step + hands * gap), radius, filled: hole === "closed" };
    return hole === "half" ? [ring, { ...ring, radius: radius / 2, filled: true }] : [ring];
  });
}
