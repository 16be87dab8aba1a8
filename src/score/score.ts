import type { PlayerId } from "../ensemble/player.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import type { Hertz } from "../units/hertz.ts";
import type { ConcertBar, PipeBar } from "./bar.ts";
import type { Frame } from "./frame.ts";
import type { LineId } from "./line-id.ts";

/** What one set of pipes plays. `bars[i]` fills `frames[i]`. */
export interface PipeLine {
  readonly kind: "pipes";
  readonly id: LineId;
  /** What the part is headed with: `Pipes`, `Pipes 2`. */
  readonly name: string;
  readonly setup: PipeSetup;
  readonly bars: readonly PipeBar[];
}

/** What one other player plays, kept at sounding (concert) pitch. `bars[i]` fills `frames[i]`. */
export interface ConcertLine {
  readonly kind: "concert";
  readonly id: LineId;
  readonly name: string;
  /** Which instrument, hence which transposition and clef the part has. */
  readonly player: PlayerId;
  readonly bars: readonly ConcertBar[];
}

/** One player's line. */
export type Line = PipeLine | ConcertLine;

/** What stands at the head of a page. Empty text where nothing is known. */
export interface Credits {
  readonly composer: string;
  readonly arranger: string;
  /** The players it is for: `The Tin Observatory`. */
  readonly ensemble: string;
  /** `Slow air`, `March`, `Song`: printed at the left. */
  readonly tuneType: string;
}

/**
 * The whole document. Immutable: an edit makes a new one that shares every frame and bar it did not touch.
 * Every line has exactly as many bars as there are frames.
 */
export interface Score {
  readonly title: string;
  readonly credits: Credits;
  /** Counts up with every edit that is kept; every page and file made from the score carries it. */
  readonly revision: number;
  /** The band's A4. */
  readonly bandA: Hertz;
  readonly frames: readonly Frame[];
  readonly lines: readonly Line[];
}
