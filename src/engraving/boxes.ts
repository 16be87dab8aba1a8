import type { Ticks } from "../units/ticks.ts";
import type { Box, Mark, MarkGroup, MarkRole } from "./drawing.ts";
import { glyphBox } from "./glyph-table.ts";
import { textWidth } from "./text-width.ts";

/** Above the baseline and below it, as shares of the size: the ascender and descender of the text faces. */
const ASCENT = 0.74;
const DESCENT = 0.22;

const NUMBERS = /-?\d+(?:\.\d+)?/g;

/** Where the ink of one mark lies. A curve is held by its control points, so its box may be a little larger than its ink. */
export function boxOf(mark: Mark): Box {
  switch (mark.kind) {
    case "glyph":
      return glyphBox(mark.code, mark.x, mark.y, mark.scale);
    case "line": {
      const half = mark.width / 2;
      const upright = mark.x1 === mark.x2;
      const [across, along] = upright ? [half, 0] : [0, half];
      return {
        left: Math.min(mark.x1, mark.x2) - across,
        top: Math.min(mark.y1, mark.y2) - along,
        right: Math.max(mark.x1, mark.x2) + across,
        bottom: Math.max(mark.y1, mark.y2) + along,
      };
    }
    case "circle":
      return { left: mark.x - mark.radius, top: mark.y - mark.radius, right: mark.x + mark.radius, bottom: mark.y + mark.radius };
    case "text": {
      const width = textWidth(mark.text, mark.face, mark.weight, mark.size);
      const left = mark.x - (mark.anchor === "start" ? 0 : mark.anchor === "middle" ? width / 2 : width);
      return { left, top: mark.y - mark.size * ASCENT, right: left + width, bottom: mark.y + mark.size * DESCENT };
    }
    case "path": {
      const numbers = (mark.d.match(NUMBERS) ?? []).map(Number);
      const xs = numbers.filter((_, index) => index % 2 === 0);
      const ys = numbers.filter((_, index) => index % 2 === 1);
      return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
    }
  }
}

/**
 * The smallest box around others.
 * @throws RangeError when there are none.
 */
export function boxAround(boxes: readonly Box[]): Box {
  const [first, ...rest] = boxes;
  if (first === undefined) throw new RangeError("No box goes around nothing.");
  let { left, top, right, bottom } = first;
  for (const box of rest) {
    if (box.left < left) left = box.left;
    if (box.top < top) top = box.top;
    if (box.right > right) right = box.right;
    if (box.bottom > bottom) bottom = box.bottom;
  }
  return { left, top, right, bottom };
}

/** A group of at least one mark. */
export function groupOf(role: MarkRole, at: Ticks | null, marks: readonly Mark[]): MarkGroup {
  return { role, at, marks, box: boxAround(marks.map(boxOf)) };
}

/** Rounds to a hundredth of a desk pixel, which nobody sees, so that drawings are short and equal everywhere. */
export function hundredths(value: number): number {
  return Math.round(value * 100) / 100 + 0;
}
