import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import type { Ticks } from "../units/ticks.ts";
import type { LineId } from "./line-id.ts";

/** How many notes stand in the time of a usual two or three: 3 in the time of 2, 2 in the time of 3. Null: straight. */
export type Tuplet = 3 | 2 | null;

/** A syllable sung on a note. */
export interface Syllable {
  readonly text: string;
  /** Whether the word goes on in the next syllable, so that a hyphen follows. */
  readonly hyphen: boolean;
}

interface Timed {
  /** How long it lasts. Which written values (tied where needed) show it is the engraver's business. */
  readonly ticks: Ticks;
  readonly tuplet: Tuplet;
}

/** Time without a note. On the pipes it is silence only between a cut-off and a strike-in. */
export interface Rest extends Timed {
  readonly kind: "rest";
}

/** A note on the chanter. */
export interface PipeNote extends Timed {
  readonly kind: "note";
  readonly note: ChanterNote;
  /** Held over into the next event, which must be the same note. */
  readonly tied: boolean;
  /** Played before (or as) the note begins, in order; each names the note it looks like in print. */
  readonly gracenotes: readonly PlainNote[];
  /** One for each verse, first verse first; usually none. */
  readonly syllables: readonly Syllable[];
  /** The chanter starts here. */
  readonly strikeIn: boolean;
  /** The chanter stops at the end of this note. */
  readonly cutOff: boolean;
}

/** A note, or notes struck together, at concert pitch. */
export interface ConcertNote extends Timed {
  readonly kind: "note";
  /** Lowest first, at least one. */
  readonly pitches: readonly ConcertPitch[];
  readonly tied: boolean;
  readonly syllables: readonly Syllable[];
}

/** What stands in a bar of pipes. */
export type PipeEvent = PipeNote | Rest;
/** What stands in another player's bar. */
export type ConcertEvent = ConcertNote | Rest;

/** A bar of a pipe line. Its events fill the frame exactly. Never changed once made, so it can be a cache's key. */
export interface PipeBar {
  readonly kind: "pipes";
  readonly events: readonly PipeEvent[];
}

/** A bar that a player has to himself. Its events fill the frame exactly. */
export interface OwnBar {
  readonly kind: "own";
  readonly events: readonly ConcertEvent[];
}

/** A bar in which a player doubles a pipe line: its notes follow that line's, so nothing is stored twice. */
export interface DoublingBar {
  readonly kind: "doubling";
  readonly of: LineId;
  /** Octaves above (below, if negative) where the pipes sound. */
  readonly octaves: number;
}

/** A bar of a player who is not the piper: his own, or with the pipes. */
export type ConcertBar = OwnBar | DoublingBar;
