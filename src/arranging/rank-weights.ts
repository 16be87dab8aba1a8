/** What a setup's cost is made of. Each is zero or more. */
export interface RankWeights {
  /** For the whole tune lost; half of it lost is half of this. */
  readonly tune: number;
  /** For each phrase moved against its neighbour. */
  readonly fold: number;
  /** For each cross-fingered note the tune needs. */
  readonly crossFingering: number;
  /** Where the drones are neither tonic nor fifth of the key. */
  readonly drone: number;
  /** For each semitone the band moves. */
  readonly bandMove: number;
  /** For each accidental in the worst signature. */
  readonly reading: number;
}

/** Weights to begin with, by what comes first. */
export type RankPreset = "tune-first" | "band-key-first" | "easy-reading-first";

/*
 * With these a percent of the tune is one. Six semitones weigh less than the drones' place, six accidentals less than one semitone, so that
 * among rows that keep as much the order is the trade's: plain, drones, move, reading.
 */
const TUNE_FIRST: RankWeights = { tune: 100, fold: 1.5, crossFingering: 1.2, drone: 0.6, bandMove: 0.08, reading: 0.01 };

/** The presets by name. */
export const RANK_PRESETS: Readonly<Record<RankPreset, RankWeights>> = {
  "tune-first": TUNE_FIRST,
  "band-key-first": { ...TUNE_FIRST, bandMove: 4 },
  "easy-reading-first": { ...TUNE_FIRST, reading: 2 },
};

/**
 * How much of the tune a plain row may keep less and still stand above a row whose tonic or fifth is cross-fingered, as a share.
 * *Source:* common practice.
 */
export const CROSS_FINGERED_TONIC_MARGIN = 0.2;
