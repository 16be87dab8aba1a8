import type { Key } from "../pitch/key.ts";
import type { Bpm } from "../units/bpm.ts";
import type { Ticks } from "../units/ticks.ts";

/** Two, four, eight or sixteen: what the lower figure of a meter may be. */
export type BeatUnit = 2 | 4 | 8 | 16;

/** A meter as it is printed: `{ beats: 6, unit: 8 }` is 6/8. */
export interface Meter {
  readonly beats: number;
  readonly unit: BeatUnit;
}

/** How fast: so many of a note value in a minute. */
export interface Tempo {
  /** The value that is counted: 960 a quarter, 1440 a dotted quarter, 1920 a half. */
  readonly beat: Ticks;
  readonly perMinute: Bpm;
}

/** A named stretch of the song. */
export interface Section {
  /** `Verse`, `Chorus`. */
  readonly name: string;
  /** A rehearsal letter or an empty text. */
  readonly letter: string;
}

/** One tune of a medley. Empty text where nothing is known. */
export interface Tune {
  readonly title: string;
  /** `March`, `Reel`: printed at the left. */
  readonly tuneType: string;
  readonly composer: string;
}

/** A chord the band plays, at concert pitch. */
export interface Chord {
  /** From the start of the bar. */
  readonly at: Ticks;
  /** As musicians write it: `E`, `C#m`, `F#7`, `B/D#`. */
  readonly symbol: string;
}

/**
 * One bar of time, shared by all lines: what is true of the bar whoever plays. It says meter, key and tempo in full,
 * so that a bar can be moved, copied or removed without asking its neighbours; what is *printed* is the change.
 */
export interface Frame {
  readonly meter: Meter;
  /** Its length where that is not the meter's: a pickup, or the short bar that makes up for one. Null: as long as the meter says. */
  readonly short: Ticks | null;
  /** The band's key, at concert pitch. */
  readonly key: Key;
  readonly tempo: Tempo;
  /** The section that begins here, or null. */
  readonly section: Section | null;
  /** The tune of a medley that begins here; null where the one before goes on, and all through a sketch that is one tune. */
  readonly tune: Tune | null;
  /** In order of `at`. The last one lasts to the next chord, in whichever bar that is. */
  readonly chords: readonly Chord[];
  readonly repeatStart: boolean;
  readonly repeatEnd: boolean;
  /** The ending (volta) this bar belongs to: bars side by side with one number form it. */
  readonly ending: 1 | 2 | null;
}
