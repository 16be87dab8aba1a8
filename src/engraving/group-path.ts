import type { CircleMark, LineMark, Mark, MarkGroup } from "./drawing.ts";
import { GLYPH_UNIT, glyphOf } from "./glyph-table.ts";

/*
 * All ink of a group but its words as one path, so that a screen has one element a note to lay out and colour.
 * Every outline goes round the same way (against the clock, as the eye sees it, holes with it), so that overlapping shapes stay filled.
 */

const paths = new WeakMap<MarkGroup, string>();

/** The `d` of one SVG path for everything in the group that is no text; empty where there is nothing. Kept with the group. */
export function pathOfGroup(group: MarkGroup): string {
  let d = paths.get(group);
  if (d === undefined) {
    d = group.marks.map(pathOfMark).join("");
    paths.set(group, d);
  }
  return d;
}

function pathOfMark(mark: Mark): string {
  switch (mark.kind) {
    case "glyph":
      return `M${mark.x} ${mark.y}${scaledOutline(mark.code, mark.scale)}`;
    case "path":
      return mark.d;
    case "line":
      return pathOfLine(mark);
    case "circle":
      return pathOfCircle(mark);
    case "text":
      return "";
  }
}

const RING = 0.7;

function pathOfCircle({ x, y, radius, filled }: CircleMark): string {
  const outer = circle(x, y, radius, 0);
  return filled ? outer : outer + circle(x, y, radius - RING, 1);
}

function circle(x: number, y: number, radius: number, sweep: 0 | 1): string {
  const r = short(radius);
  return `M${short(x - radius)} ${y}a${r} ${r} 0 1 ${sweep} ${short(2 * radius)} 0a${r} ${r} 0 1 ${sweep} ${short(-2 * radius)} 0z`;
}

function pathOfLine({ x1, y1, x2, y2, width }: LineMark): string {
  const half = width / 2;
  const [left, right, top, bottom] =
    x1 === x2 ? [x1 - half, x1 + half, Math.min(y1, y2), Math.max(y1, y2)] : [Math.min(x1, x2), Math.max(x1, x2), y1 - half, y1 + half];
  return `M${short(left)} ${short(top)}V${short(bottom)}H${short(right)}V${short(top)}Z`;
}

const scaled = new Map<string, string>();
const NUMBERS = /-?\d+/g;

/** An outline's steps in desk pixels, to be put after the point where its origin stands. */
function scaledOutline(code: number, scale: number): string {
  const name = `${code} ${scale}`;
  let steps = scaled.get(name);
  if (steps === undefined) {
    const unit = GLYPH_UNIT * scale;
    steps = glyphOf(code).outline.replace(NUMBERS, (number) => {
      const text = String(Math.round(Number(number) * unit * 1000) / 1000 + 0);
      return text.startsWith("-") ? text : ` ${text}`;
    });
    scaled.set(name, steps);
  }
  return steps;
}

function short(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
