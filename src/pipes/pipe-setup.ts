import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import type { Cents } from "../units/cents.ts";
import type { Decibels } from "../units/decibels.ts";
import type { Hertz } from "../units/hertz.ts";
import type { CrossFingeredNote, PlainNote } from "./chanter-note.ts";

/** The published scales, by the name the project's tables give them, and the equal one. */
export type PublishedScale = "septimal" | "1954" | "1991" | "equal";

/** How a chanter is tuned: a published scale, or the piper's own nine measurements. */
export type ChanterScale =
  | { readonly kind: "published"; readonly name: PublishedScale }
  /** Cents over low A for each of the nine; low A itself is 0, low G is negative. */
  | { readonly kind: "measured"; readonly cents: Readonly<Record<PlainNote, Cents>> };

/**
 * Eight finger holes as text, thumb first: `X` closed, `O` open, `H` half.
 * Thumb | upper index, middle, ring | lower index, middle, ring, little: `X XXX XXXO` is low A.
 */
export type Holes = string;

/** A cross-fingering as this chanter and reed answer it. */
export interface CrossFingering {
  readonly note: CrossFingeredNote;
  /** Ticked by the piper once it has been tried: without it the note is not offered. */
  readonly speaks: boolean;
  readonly holes: Holes;
  /** Where it sounds, cents over low A. */
  readonly cents: Cents;
  /** How loud it is against the plain note of the same letter. */
  readonly level: Decibels;
  /** How much of the upper partials it lacks: 0 as bright as the plain note of the same letter, 10 as dull as a chanter can be. */
  readonly dullness: number;
}

/** One drone. Two drones of one name (the tenors) are two entries. */
export interface Drone {
  readonly name: "tenor" | "bass" | "baritone";
  /** Its frequency as a ratio to low A, `[1, 2]` for a tenor: an octave below. */
  readonly ratio: readonly [numerator: number, denominator: number];
  /** False when it is corked. */
  readonly on: boolean;
}

/** Everything about one set of pipes that decides how it sounds. Plain data, saved with the sketch. */
export interface PipeSetup {
  /** What low A truly sounds, in the octave it sounds in: 480 on Highland pipes, 240 on smallpipes of the same name. */
  readonly lowA: Hertz;
  /**
   * The concert pitch the piper calls low A, with its octave: `Bb4`; `Bb3` on smallpipes, which sound an octave lower. So the sounding
   * octave is not a field of its own: it follows from this, and every note's concert pitch is its written pitch moved by the interval
   * from written A4 to here.
   * Stored beside the hertz and changed by nothing but the piper: 480 Hz lies a hair past the border from B flat to B.
   */
  readonly lowAIs: ConcertPitch;
  readonly scale: ChanterScale;
  /** How this piper fingers the nine. */
  readonly fingerings: Readonly<Record<PlainNote, Holes>>;
  /** One entry for each cross-fingered note, in the order of `CROSS_FINGERED_NOTES`. */
  readonly crossFingerings: readonly CrossFingering[];
  readonly drones: readonly Drone[];
  /** Whether the chanter can be silent while the drones sound. Highland pipes: no. */
  readonly canRest: boolean;
}
