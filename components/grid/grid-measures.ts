import { GRID_REACH } from "../../src/pipes/drones.ts";

/** Every size of the scale grid, in px unless said otherwise. */
export interface GridMeasures {
  /** Px to a cent. */
  readonly scale: number;
  /** Left of time: the rows' names and the two scales. */
  readonly labels: number;
  /** Right of time: the drone's partials; 0 where there is no room. */
  readonly margin: number;
  /** The line of chords, over the rows. */
  readonly chords: number;
  /** The drones' strip, under the rows. */
  readonly drones: number;
  /** How thick a held note is. */
  readonly ink: number;
  /** The radius of the ring at each end of a chosen note. */
  readonly handle: number;
  /** How far from a note's middle, up, down or past its ends, a press still finds it. */
  readonly reach: number;
}

/** For a mouse: a note is found 24 px tall. */
export const DESK: GridMeasures = { scale: 0.212, labels: 216, margin: 84, chords: 32, drones: 42, ink: 8, handle: 4.5, reach: 12 };

/** For a finger: 44 px. */
export const PHONE: GridMeasures = { scale: 0.263, labels: 112, margin: 12, chords: 40, drones: 42, ink: 11, handle: 10, reach: 22 };

/** How tall the rows are together. */
export function rowsHeight(measures: GridMeasures): number {
  return Math.round((GRID_REACH.highest - GRID_REACH.lowest) * measures.scale);
}

/** How tall the whole grid is. */
export function gridHeight(measures: GridMeasures): number {
  return measures.chords + rowsHeight(measures) + measures.drones;
}

/** Where a pitch lies, in px from the grid's top; whole tenths, so that drawings compare. */
export function heightOf(measures: GridMeasures, centsOverLowA: number): number {
  return Math.round((measures.chords + (GRID_REACH.highest - centsOverLowA) * measures.scale) * 10) / 10;
}

/** The pitch at a height, in cents over low A. */
export function centsAtHeight(measures: GridMeasures, y: number): number {
  return GRID_REACH.highest - (y - measures.chords) / measures.scale;
}

/** The sizes a style sheet needs, as custom properties. */
export function asProperties(measures: GridMeasures): Readonly<Record<`--${string}`, string>> {
  return {
    "--labels": `${measures.labels}px`,
    "--margin": `${measures.margin}px`,
    "--chords": `${measures.chords}px`,
    "--rows": `${rowsHeight(measures)}px`,
    "--drones": `${measures.drones}px`,
    "--height": `${gridHeight(measures)}px`,
  };
}
