import { type BarDrawing, STAFF_HEIGHT } from "../../src/engraving/drawing.ts";
import type { Ticks } from "../../src/units/ticks.ts";

/** From a ring to the nearest ink. */
const CLEAR = 4;

/** A ring higher than this would leave the sheet; it then goes under the staff. */
const HIGHEST = -34;

/** The middle of a finding's ring, in desk pixels of its bar: over its note and all ink there, or under where there is no room above. */
export function ringPlace(drawing: BarDrawing, at: Ticks | null, radius: number): { readonly x: number; readonly y: number } {
  const own = drawing.groups.find((group) => group.at === at && (group.role === "note" || group.role === "rest"));
  const x = own === undefined ? 12 : own.box.left + 4;
  let top = 0;
  let bottom = STAFF_HEIGHT;
  for (const { box } of drawing.groups) {
    if (box.right < x - radius - 1 || box.left > x + radius + 1) continue;
    top = Math.min(top, box.top);
    bottom = Math.max(bottom, box.bottom);
  }
  const above = top - CLEAR - radius;
  return { x, y: above - radius >= HIGHEST - radius ? above : bottom + CLEAR + radius };
}
