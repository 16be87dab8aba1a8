import { svg } from "lit";
import type { Hole } from "../../src/pipes/fingerings.ts";

const APART = 11;
const GROUP_GAP = 5;
const RADIUS = 4.25;

/** Where each hole stands, px: the thumb, the upper hand, the lower hand. */
function placeOfHole(index: number): number {
  return RADIUS + 1 + index * APART + (index >= 1 ? GROUP_GAP : 0) + (index >= 4 ? GROUP_GAP : 0);
}

/** How wide eight holes are, px. */
export const HOLES_WIDTH = placeOfHole(7) + RADIUS + 1;

/** Eight holes in a row, thumb first: filled is closed, a ring is open, half filled is half. Height 11 px. */
export function drawHoles(holes: readonly Hole[]) {
  return holes.map((hole, index) => {
    const x = placeOfHole(index);
    const ring = svg`<circle class=${hole === "closed" ? "hole closed" : "hole"} cx=${x} cy="5.5" r=${RADIUS}></circle>`;
    return hole === "half"
      ? svg`${ring}<path class="half" d=${`M${x} ${5.5 - RADIUS}a${RADIUS} ${RADIUS} 0 0 0 0 ${RADIUS * 2}z`}></path>`
      : ring;
  });
}
