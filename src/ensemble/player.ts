import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import type { Transposition } from "../pitch/transpose.ts";

/** Names an instrument of the catalogue: `fiddle`, `trumpet-bb`. */
export type PlayerId = string;

/** A clef as it stands on the staff. */
export type Clef = "treble" | "alto" | "bass";

/** Lowest and highest pitch, both included. */
export interface PitchRange {
  readonly lowest: ConcertPitch;
  readonly highest: ConcertPitch;
}

/** One instrument a band may bring, as far as its part and its pitch are concerned. */
export interface Player {
  readonly id: PlayerId;
  /** As it heads a part: `Trumpet in B♭`. */
  readonly name: string;
  readonly clef: Clef;
  /** Octaves by which the clef itself shifts what is read (a small 8 on it): -1, 0 or 1. */
  readonly octaveClef: -1 | 0 | 1;
  /** What to add to the sounding pitch to get the written one. Never an octave here and an octave clef as well. */
  readonly transposition: Transposition;
  /** What it can sound, at concert pitch. */
  readonly range: PitchRange;
  /** Where range and transposition come from. */
  readonly source: string;
}
