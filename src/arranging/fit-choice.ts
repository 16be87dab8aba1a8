import type { ChanterNote } from "../pipes/chanter-note.ts";

/** What became of a note that could not stay as it was. */
export type FitChange = "octave" | "chord-note" | "neighbour" | "cross-fingering" | "dropped" | "flat-seventh" | "handed-over";

/** One way to play a note of the tune. */
export interface FitChoice {
  /** Octaves that its phrase is moved by. */
  readonly octave: number;
  /** What is fingered; a dropped note has what is held over it. Null: another player has it. */
  readonly note: ChanterNote | null;
  /** What is done beside moving the octave; null: the pitch is right. */
  readonly change: Exclude<FitChange, "octave"> | null;
  /** Where the tune's own pitch would stand, and where what is played stands, in written semitones. */
  readonly wanted: number;
  readonly played: number;
  /** What it costs by itself. */
  readonly cost: number;
}

/** What each kind of choice costs, for a note of a quarter on a weak beat; ours. */
export interface FitWeights {
  readonly crossFingering: number;
  readonly chordNote: number;
  readonly neighbour: number;
  readonly flatSeventh: number;
  readonly dropped: number;
  readonly handedOver: number;
  /** For each semitone that a changed note lies off. */
  readonly semitoneOff: number;
  /** Once, where another player takes over. */
  readonly handOver: number;
  /** Where a phrase goes on in another octave. */
  readonly fold: number;
  /** Where the tune goes up and the pipes do not, or the other way about. */
  readonly contour: number;
  /** For each semitone that a leap grows by. */
  readonly leap: number;
  /** For each of the nine that can sound in between, beside a changed note. */
  readonly crossing: number;
  /** What a change counts for on a first beat, a phrase's highest note or its last: so many times. */
  readonly prominence: number;
  /** What a change of a pinned note counts for: so many times. */
  readonly pinned: number;
}

/** To begin with. */
export const USUAL_FIT: FitWeights = {
  crossFingering: 0.8,
  chordNote: 2,
  neighbour: 2.6,
  flatSeventh: 1.6,
  dropped: 1.8,
  handedOver: 4,
  semitoneOff: 0.3,
  handOver: 3,
  fold: 4,
  contour: 1.2,
  leap: 0.1,
  crossing: 0.1,
  prominence: 1.4,
  pinned: 8,
};
