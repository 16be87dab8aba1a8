import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { centsOverLowA, speaks } from "../../src/pipes/sounding.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import type { Hertz } from "../../src/units/hertz.ts";
import { type GridMeasures, heightOf, rowsHeight } from "./grid-measures.ts";
import { type GridRow, gridRows } from "./grid-rows.ts";
import type { ScoreScale } from "./overlay.ts";

/** What the height of things depends on; the same object for as long as setup, band and measures stay. */
export interface PitchScene {
  readonly setup: PipeSetup;
  readonly bandA: Hertz;
  readonly measures: GridMeasures;
  readonly rows: readonly GridRow[];
  readonly height: (note: ChanterNote) => number;
  readonly speaks: (note: ChanterNote) => boolean;
  /** Px from the grid's top at which the rows end and the drones' strip begins. */
  readonly foot: number;
}

/** Everything the grid draws from, of one score. */
export interface GridScene extends ScoreScale {
  readonly pitch: PitchScene;
}

/** The scene of a line of a score; what did not change since the scene before is kept, so that drawings can be told to be the same. */
export function sceneOf(
  score: Score,
  line: PipeLine,
  widths: readonly number[],
  measures: GridMeasures,
  before: GridScene | null,
): GridScene {
  const old = before?.pitch;
  const same = old !== undefined && old.setup === line.setup && old.bandA === score.bandA && old.measures === measures;
  const pitch = same ? old : pitchScene(line.setup, score.bandA, measures);
  return { score, line, widths, measures, height: pitch.height, pitch };
}

function pitchScene(setup: PipeSetup, bandA: Hertz, measures: GridMeasures): PitchScene {
  return {
    setup,
    bandA,
    measures,
    rows: gridRows(setup, bandA, measures),
    height: (note) => heightOf(measures, centsOverLowA(setup, note)),
    speaks: (note) => speaks(setup, note),
    foot: measures.chords + rowsHeight(measures),
  };
}
