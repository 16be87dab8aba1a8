import { pitchClassAtFifths } from "../pitch/key-signature.ts";
import type { SongKey, SongMode } from "./song.ts";

/** How far each mode's tonic lies above the major tonic of the same signature, in fifths. */
const TONIC_FIFTHS: Readonly<Record<SongMode, number>> = {
  lydian: -1,
  major: 0,
  mixolydian: 1,
  dorian: 2,
  minor: 3,
  phrygian: 4,
  locrian: 5,
};

/** Sharps (positive) or flats (negative) that a mode takes off its tonic's major signature. */
export function fifthsOfMode(tonicFifths: number, mode: SongMode): number {
  return tonicFifths - TONIC_FIFTHS[mode];
}

/** The tonic as a spelled pitch class: `F#`. */
export function songTonic({ fifths, mode }: Pick<SongKey, "fifths" | "mode">): string {
  return pitchClassAtFifths(fifths + TONIC_FIFTHS[mode]);
}

/** A key as files name it: `F# minor`. */
export function songKeyName(key: Pick<SongKey, "fifths" | "mode">): string {
  return `${songTonic(key)} ${key.mode}`;
}
