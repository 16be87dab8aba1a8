import type { BarRange } from "../score/edit.ts";
import type { BarDrawing, MarkGroup } from "./drawing.ts";

/** Which paper pages are cut for. */
export type Paper = "a4" | "letter";

/** Millimetres in a desk pixel on paper: a staff space of 7 is 1.75 mm, a rastral size 4 to 5, as parts have it (common practice). */
export const MILLIMETRES = 0.25;

/** Width and height in millimetres. *Source:* ISO 216 (A4); ANSI/ASME Y14.1 (Letter, 8.5 by 11 inches). */
export const PAPER_SIZE: Readonly<Record<Paper, readonly [width: number, height: number]>> = { a4: [210, 297], letter: [215.9, 279.4] };

/** A drawing put somewhere on a page: x of its left bar line, y of its top staff line. */
export interface PlacedDrawing {
  readonly drawing: BarDrawing;
  readonly x: number;
  readonly y: number;
  /** The bars it stands for, more than one where a rest does; left out: none, it is the beginning or the end of a staff. */
  readonly bars?: BarRange;
}

/** One page of one part, everything on it in desk pixels from its top left corner. */
export interface PageDrawing {
  readonly paper: Paper;
  readonly width: number;
  readonly height: number;
  /** Heads, bars and ends, line by line. */
  readonly staves: readonly PlacedDrawing[];
  /** Titles, names and footer. */
  readonly groups: readonly MarkGroup[];
}
