import { boxAround, boxOf } from "../../src/engraving/boxes.ts";
import type { Box, GlyphMark, Mark } from "../../src/engraving/drawing.ts";
import { GLYPH_UNIT, glyphOf } from "../../src/engraving/glyph-table.ts";

/*
 * Where ink really lies: the outlines of signs, beams and ties as polygons, so that a sloped beam or a tie is not taken for the whole box
 * around it. Words are boxes by the table of their letters' widths.
 */

type Point = readonly [x: number, y: number];

/** A closed outline; what it goes round is ink, a hole in it too. */
type Polygon = readonly Point[];

/** What a mark covers, as it lies about a point of its own. */
interface Ink {
  readonly box: Box;
  readonly polygons: readonly Polygon[];
}

/** Ink put somewhere, and the box around it there. */
export interface Shape {
  readonly box: Box;
  readonly ink: Ink;
  readonly x: number;
  readonly y: number;
}

/** Pieces of a curve: the chord of an eighth of a tie is a tenth of a pixel from it. */
const PIECES = 8;

/** Two marks that share no more than this hair, px, only touch: a stroke's blunt end, a rounded hundredth. */
const HAIR = 0.15;

/** What a mark covers when its drawing stands at a point. */
export function shapeOf(mark: Mark, x: number, y: number): Shape {
  return mark.kind === "glyph" ? shapeAt(inkOfSign(mark), x + mark.x, y + mark.y) : shapeAt(inkOf(mark), x, y);
}

/** The same ink somewhere else. */
export function shiftedShape({ ink, x, y }: Shape, byX: number, byY: number): Shape {
  return shapeAt(ink, x + byX, y + byY);
}

function shapeAt(ink: Ink, x: number, y: number): Shape {
  const { left, top, right, bottom } = ink.box;
  return { box: { left: left + x, top: top + y, right: right + x, bottom: bottom + y }, ink, x, y };
}

/** Whether the ink of two marks lies upon each other. Boxes are looked at first: most marks stand well apart. */
export function overlap(one: Shape, other: Shape): boolean {
  return boxesMeet(one.box, other.box) && inksMeet(one, other);
}

/** Whether two boxes share more than a hair. */
export function boxesMeet(one: Box, other: Box): boolean {
  if (one.bottom < other.top || other.bottom < one.top || one.right < other.left || other.right < one.left) return false;
  const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
  const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
  return down > HAIR && across > HAIR;
}

function inksMeet(one: Shape, other: Shape): boolean {
  const [byX, byY] = [other.x - one.x, other.y - one.y];
  const against = other.ink.polygons.map((polygon) => polygon.map(([x, y]): Point => [x + byX, y + byY]));
  return one.ink.polygons.some((polygon) => against.some((shifted) => polygonsOverlap(polygon, shifted)));
}

const inks = new WeakMap<Mark, Ink>();

/** Of everything but signs, kept with the mark: a drawing stands on several pages. */
function inkOf(mark: Exclude<Mark, GlyphMark>): Ink {
  let ink = inks.get(mark);
  if (ink === undefined) {
    ink = inkOfPolygons(polygonsOf(mark));
    inks.set(mark, ink);
  }
  return ink;
}

const signs = new Map<number, Map<number, Ink>>();

/** Of a sign, about its origin. */
function inkOfSign({ code, scale }: GlyphMark): Ink {
  const sizes = signs.get(code) ?? new Map<number, Ink>();
  signs.set(code, sizes);
  let ink = sizes.get(scale);
  if (ink === undefined) {
    ink = inkOfPolygons(flattened(glyphOf(code).outline, GLYPH_UNIT * scale));
    sizes.set(scale, ink);
  }
  return ink;
}

function inkOfPolygons(polygons: readonly Polygon[]): Ink {
  return { box: boxAround(polygons.map(boxOfPolygon)), polygons };
}

function polygonsOf(mark: Exclude<Mark, GlyphMark>): readonly Polygon[] {
  switch (mark.kind) {
    case "path":
      return flattened(mark.d, 1);
    case "line":
      return [stroke(mark.x1, mark.y1, mark.x2, mark.y2, mark.width / 2)];
    case "circle":
      return [
        Array.from({ length: 16 }, (_, step): Point => {
          const angle = (step * Math.PI) / 8;
          return [mark.x + mark.radius * Math.cos(angle), mark.y + mark.radius * Math.sin(angle)];
        }),
      ];
    case "text":
      return [corners(boxOf(mark))];
  }
}

const STEPS = /([MmLlCcZz])([^MmLlCcZz]*)/g;

/** The closed outlines of a path of straight lines and curves, small letters being steps from where the pen is. */
function flattened(d: string, unit: number): readonly Polygon[] {
  const polygons: Point[][] = [];
  let [penX, penY] = [0, 0];
  for (const [, letter = "", list = ""] of d.matchAll(STEPS)) {
    const numbers = (list.match(/-?\d+(?:\.\d+)?/g) ?? []).map((number) => Number(number) * unit);
    const isStep = letter === letter.toLowerCase();
    const kind = letter.toLowerCase();
    const size = kind === "c" ? 6 : 2;
    for (let at = 0; at + size <= numbers.length; at += size) {
      const [fromX, fromY] = isStep ? [penX, penY] : [0, 0];
      const points = Array.from(
        { length: size / 2 },
        (_, place): Point => [fromX + (numbers[at + 2 * place] as number), fromY + (numbers[at + 2 * place + 1] as number)],
      );
      if (kind === "m" && at === 0) polygons.push([]);
      const polygon = polygons.at(-1) as Point[];
      if (kind === "c") polygon.push(...curve([penX, penY], points as unknown as readonly [Point, Point, Point]));
      else polygon.push(points[0] as Point);
      [penX, penY] = points.at(-1) as Point;
    }
    if (kind === "z") [penX, penY] = polygons.at(-1)?.[0] ?? [0, 0];
  }
  return polygons;
}

function curve(from: Point, [first, second, to]: readonly [Point, Point, Point]): readonly Point[] {
  return Array.from({ length: PIECES }, (_, piece): Point => {
    const t = (piece + 1) / PIECES;
    const s = 1 - t;
    const along = (axis: 0 | 1) => s ** 3 * from[axis] + 3 * s * s * t * first[axis] + 3 * s * t * t * second[axis] + t ** 3 * to[axis];
    return [along(0), along(1)];
  });
}

/** A stroke with blunt ends, at any slope. */
function stroke(x1: number, y1: number, x2: number, y2: number, half: number): Polygon {
  const length = Math.hypot(x2 - x1, y2 - y1);
  const [acrossX, acrossY] = length === 0 ? [half, 0] : [(-(y2 - y1) / length) * half, ((x2 - x1) / length) * half];
  return [
    [x1 + acrossX, y1 + acrossY],
    [x2 + acrossX, y2 + acrossY],
    [x2 - acrossX, y2 - acrossY],
    [x1 - acrossX, y1 - acrossY],
  ];
}

function corners({ left, top, right, bottom }: Box): Polygon {
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
}

function boxOfPolygon(polygon: Polygon): Box {
  let [left, top, right, bottom] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [x, y] of polygon) {
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < top) top = y;
    if (y > bottom) bottom = y;
  }
  return { left, top, right, bottom };
}

function polygonsOverlap(one: Polygon, other: Polygon): boolean {
  if (isInside(one[0] as Point, other) || isInside(other[0] as Point, one)) return true;
  return one.some((from, place) => {
    const to = one[(place + 1) % one.length] as Point;
    return other.some((start, at) => cross(from, to, start, other[(at + 1) % other.length] as Point));
  });
}

function isInside([x, y]: Point, polygon: Polygon): boolean {
  let inside = false;
  for (const [place, [x1, y1]] of polygon.entries()) {
    const [x2, y2] = polygon[(place + 1) % polygon.length] as Point;
    if (y1 > y !== y2 > y && x < ((x2 - x1) * (y - y1)) / (y2 - y1) + x1) inside = !inside;
  }
  return inside;
}

function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

function side([x1, y1]: Point, [x2, y2]: Point, [x, y]: Point): number {
  return (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1);
}
