import type { Ticks } from "../units/ticks.ts";

/*
 * What the engraver makes and every painter reads: plain data that can be cloned, kept, compared and sent to a worker.
 *
 *   0 ────────────────── y = 0, the top line of the staff
 *     ──────────────────
 *     ──────────────────      one staff space is 7; y grows downwards
 *     ──────────────────
 *     ────────────────── y = 28
 *   x = 0 is the bar line that the bar begins with
 *
 * All lengths are in desk pixels, a seventh of a staff space: a page or a phone paints the same drawing larger or smaller.
 */

/** Desk pixels in a staff space. */
export const STAFF_SPACE = 7;

/** From the top line of the staff to the bottom one. */
export const STAFF_HEIGHT = 4 * STAFF_SPACE;

/** The typefaces of words: the serif names and explains, the italic directs, the sans measures. */
export type Face = "serif" | "italic" | "sans";

/** Which end of a word stands at its x. */
export type Anchor = "start" | "middle" | "end";

/** A sign of the music font. */
export interface GlyphMark {
  readonly kind: "glyph";
  /** SMuFL code point; `glyphOf` has its outline. */
  readonly code: number;
  /** Where the glyph's origin stands. */
  readonly x: number;
  readonly y: number;
  /** 1 at the staff's own size, less for gracenotes. */
  readonly scale: number;
}

/** A filled shape: a beam, a tie. */
export interface PathMark {
  readonly kind: "path";
  /** As the `d` of an SVG path, capital letters M L C Z only. */
  readonly d: string;
}

/** A straight stroke with blunt ends: a staff line, a stem, a bar line. */
export interface LineMark {
  readonly kind: "line";
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly width: number;
}

/** A finger hole: closed is a disc, open a ring. */
export interface CircleMark {
  readonly kind: "circle";
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly filled: boolean;
}

/** Words and figures. */
export interface TextMark {
  readonly kind: "text";
  readonly x: number;
  /** Of the baseline. */
  readonly y: number;
  readonly text: string;
  readonly face: Face;
  readonly weight: 400 | 600;
  readonly size: number;
  readonly anchor: Anchor;
}

/** One piece of ink. */
export type Mark = GlyphMark | PathMark | LineMark | CircleMark | TextMark;

/** A rectangle that holds ink. Right is never less than left, bottom never less than top. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/**
 * What a group of marks is for, so that a painter may choose colour and order.
 * `note` and `rest` stand for an event; gracenotes, the hole chart, words and syllables of an event stand apart from its note so that they keep
 * their ink when the note is chosen. `staff` are the five lines; `bar-line` repeat signs too; `furniture` is whatever else belongs to no event.
 */
export type MarkRole =
  | "staff"
  | "bar-line"
  | "signature"
  | "note"
  | "rest"
  | "gracenotes"
  | "beam"
  | "tie"
  | "tuplet"
  | "holes"
  | "words"
  | "syllable"
  | "chord"
  | "ending"
  | "furniture";

/** Marks that belong together. */
export interface MarkGroup {
  readonly role: MarkRole;
  /** The moment of the bar at which the event begins that the group belongs to; null where it belongs to none. Line and bar are the reader's to add. */
  readonly at: Ticks | null;
  readonly marks: readonly Mark[];
  /** Around all its marks. */
  readonly box: Box;
}

/** One bar of one part, or the signs at the head of its staff. Nothing in it says which bar of the score it is, so that equal bars share it. */
export interface BarDrawing {
  /** From bar line to bar line. */
  readonly width: number;
  /** Staff and bar lines first, then the events in order of time. */
  readonly groups: readonly MarkGroup[];
  /** Around all ink. */
  readonly box: Box;
}
