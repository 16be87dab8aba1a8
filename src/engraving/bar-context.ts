import type { Clef } from "../ensemble/player.ts";
import type { ChanterNote, CrossFingeredNote } from "../pipes/chanter-note.ts";
import type { Holes } from "../pipes/pipe-setup.ts";
import type { Key } from "../pitch/key.ts";
import type { Transposition } from "../pitch/transpose.ts";
import type { Meter } from "../score/frame.ts";
import type { Ticks } from "../units/ticks.ts";
import type { PartStyle } from "./part-style.ts";

/** How the notes of a part are read. */
export type Reading =
  /** Written A, stems down, C and F understood sharp. Holes are those of this setup. */
  | { readonly kind: "pipes"; readonly holes: Readonly<Record<ChanterNote, Holes>> }
  /** As the player reads it; the transposition leads from the sounding pitch to the written one. */
  | { readonly kind: "concert"; readonly clef: Clef; readonly transposition: Transposition };

/** The bar line or repeat sign a bar ends with. */
export type Closing = "plain" | "double" | "repeat" | "final";

/** The bracket over an ending, as far as it lies over one bar. */
export interface EndingBracket {
  readonly number: 1 | 2;
  readonly opens: boolean;
  /** Whether its bracket turns down at the bar's end. */
  readonly closes: boolean;
}

/** A sounding or written name above a bar at a moment. */
export interface PlacedWords {
  readonly at: Ticks;
  readonly text: string;
}

/**
 * Everything besides its own events that a bar's drawing depends on. Two bars with the same events and equal contexts look the same,
 * wherever they stand; so this is the cache's key, and it names no bar.
 */
export interface BarContext {
  readonly reading: Reading;
  /** On the desk notes stand where the grid has them; on a page they have natural spacing. */
  readonly spacing: "desk" | "page";
  readonly width: number;
  readonly meter: Meter;
  readonly short: Ticks | null;
  /** As the part reads it; the pipes read D major, which they do not print. */
  readonly key: Key;
  /** The key before, where the signature changes at this bar; else null. */
  readonly keyBefore: Key | null;
  /** Whether the meter is printed. */
  readonly meterShown: boolean;
  /** Whether the first note is held over from the bar before. */
  readonly tieIn: boolean;
  /** Whether it is spelled otherwise than it was there, the key having changed, so that its accidental is needed after all. */
  readonly respelled: boolean;
  /** Whether the tie that comes in is drawn here, since its beginning stands on another line. */
  readonly tieInDrawn: boolean;
  /** Whether the last note is held over into the bar after. */
  readonly tieOut: boolean;
  /** How far into the next bar a tie that goes out reaches: to its first head. */
  readonly tieOutReach: number;
  /** What the bar before did to notes outside the signature, so that courtesy accidentals can take it back: `C5` to its alteration. */
  readonly altersBefore: Readonly<Record<string, number>>;
  /** The cross-fingered notes of the bar before on the same line of staff: their charts have been seen. */
  readonly chartsBefore: readonly CrossFingeredNote[];
  /** Which notes of a pipe part have a chart: the cross-fingered ones over the staff, or every one under it. */
  readonly charts: PartStyle["charts"];
  /** Where the charts under the whole line of staff begin; lower ink pushes them down. */
  readonly chartTop: number;
  readonly opening: "plain" | "repeat";
  readonly closing: Closing;
  readonly ending: EndingBracket | null;
  /** Directions at the beginning: `with the pipes`. */
  readonly directions: string;
  /** Only on pages: the section, its letter first; the tempo where it changes; the chords as the player reads them. */
  readonly section: string;
  readonly tempo: { readonly beat: Ticks; readonly perMinute: number } | null;
  readonly chords: readonly PlacedWords[];
  /** Where the chords of the whole line of staff stand, so that they are level; a chord over higher ink goes over that. */
  readonly chordBaseline: number;
  /** Where section and tempo stand, clear of what they run on over. */
  readonly headingBaseline: number;
  /** Where the bracket over endings runs along the whole line of staff. */
  readonly endingTop: number;
  /** Where the first verse of the whole line of staff stands; on a page lower ink pushes it down, on the desk nothing does. */
  readonly syllableBaseline: number;
}
