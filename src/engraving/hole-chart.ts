import { parseHoles } from "../pipes/fingerings.ts";
import type { Holes } from "../pipes/pipe-setup.ts";
import { hundredths } from "./boxes.ts";
import type { Mark } from "./drawing.ts";

/** Radius of a hole, and from one to the next. */
const RADIUS = 2.1;
const STEP = 5.3;

/** Between thumb and upper hand, and between the hands. */
const HAND_GAP = 2.8;

/** How wide a chart is. */
export const CHART_WIDTH = 7 * STEP + 2 * HAND_GAP + 2 * RADIUS;

/** How tall. */
export const CHART_HEIGHT = 2 * RADIUS;

/** Eight finger holes in a row, thumb first, the hands apart: discs are closed, rings open, a ring with a point half closed. */
export function holeChart(holes: Holes, left: number, y: number): readonly Mark[] {
  return parseHoles(holes).flatMap((hole, index): readonly Mark[] => {
    const hands = index === 0 ? 0 : index < 4 ? 1 : 2;
    const x = hundredths(left + RADIUS + index * STEP + hands * HAND_GAP);
    const ring: Mark = { kind: "circle", x, y: hundredths(y), radius: RADIUS, filled: hole === "closed" };
    return hole === "half" ? [ring, { ...ring, radius: RADIUS / 2, filled: true }] : [ring];
  });
}
