import { boxAround, hundredths } from "./boxes.ts";
import type { BarDrawing, Box, Mark, MarkGroup } from "./drawing.ts";

const kept = new WeakMap<BarDrawing, Map<number, BarDrawing>>();

const NUMBERS = /-?\d+(?:\.\d+)?/g;

/** A drawing made smaller about its own origin, everything in it: 0.9 is nine tenths. Kept with the drawing. */
export function scaledDrawing(drawing: BarDrawing, size: number): BarDrawing {
  if (size === 1) return drawing;
  const known = kept.get(drawing) ?? new Map<number, BarDrawing>();
  kept.set(drawing, known);
  const found = known.get(size);
  if (found !== undefined) return found;
  const groups = drawing.groups.map((group) => scaledGroup(group, size));
  const made = { width: hundredths(drawing.width * size), groups, box: boxAround(groups.map(({ box }) => box)) };
  known.set(size, made);
  return made;
}

function scaledGroup({ role, at, marks, box }: MarkGroup, size: number): MarkGroup {
  return { role, at, marks: marks.map((mark) => scaledMark(mark, size)), box: scaledBox(box, size) };
}

function scaledBox({ left, top, right, bottom }: Box, size: number): Box {
  return { left: left * size, top: top * size, right: right * size, bottom: bottom * size };
}

function scaledMark(mark: Mark, size: number): Mark {
  const by = (value: number) => hundredths(value * size);
  switch (mark.kind) {
    case "glyph":
      return { ...mark, x: by(mark.x), y: by(mark.y), scale: by(mark.scale) };
    case "line":
      return { ...mark, x1: by(mark.x1), y1: by(mark.y1), x2: by(mark.x2), y2: by(mark.y2), width: by(mark.width) };
    case "circle":
      return { ...mark, x: by(mark.x), y: by(mark.y), radius: by(mark.radius) };
    case "text":
      return { ...mark, x: by(mark.x), y: by(mark.y), size: by(mark.size) };
    case "path":
      return { ...mark, d: mark.d.replace(NUMBERS, (number) => String(by(Number(number)))) };
  }
}
