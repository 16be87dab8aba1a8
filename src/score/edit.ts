import type { PlayerId } from "../ensemble/player.ts";
import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import type { Key } from "../pitch/key.ts";
import type { Hertz } from "../units/hertz.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Address } from "./address.ts";
import type { ConcertBar, ConcertEvent, PipeBar, PipeEvent, Syllable, Tuplet } from "./bar.ts";
import type { Chord, Frame, Meter, Section, Tempo, Tune } from "./frame.ts";
import type { LineId } from "./line-id.ts";
import type { Credits } from "./score.ts";

/** Bars side by side: from the first to the last, both included; indexes into the frames. */
export interface BarRange {
  readonly first: number;
  readonly last: number;
}

/** Bars cut out of a score, every line's together, ready to be put in elsewhere. `bars[line][i]` fills `frames[i]`. */
export interface BarClip {
  readonly frames: readonly Frame[];
  readonly bars: Readonly<Record<LineId, readonly (PipeBar | ConcertBar)[]>>;
}

/** A stretch of one line cut out, bar lines forgotten, ready to be put down elsewhere on a line of the same kind. */
export type StretchClip =
  | { readonly kind: "pipes"; readonly events: readonly PipeEvent[] }
  | { readonly kind: "concert"; readonly events: readonly ConcertEvent[] };

/** What a step on the grid puts down: a chanter note on a pipe line, concert pitches on another. */
export type Content =
  | { readonly kind: "pipes"; readonly note: ChanterNote }
  | { readonly kind: "concert"; readonly pitches: readonly ConcertPitch[] };

/**
 * One change to a score, as data: what the grid, the keyboard, a cure and the laws' random walk all speak.
 * An address names the event that sounds there, with all it is tied to. No edit takes a sung word away unless it says that something goes
 * (`clear`, `paste`, `syllables`, `remove-bars`, `remove-line`): the word moves to another note, or the edit is refused. A tuplet is cut only where
 * one of its notes or equal parts begins; otherwise the edit is refused.
 */
export type Edit =
  /**
   * Puts a note down over whatever was there. It may run over bar lines: it is then tied. A tuplet note makes a tuplet of the time around it. On the
   * pipes the first note of a line is struck in; a note in a silence is struck in and cut off, or makes the phrase it touches longer.
   */
  | { readonly kind: "place"; readonly at: Address; readonly ticks: Ticks; readonly tuplet: Tuplet; readonly content: Content }
  /** Gives the note at a place (with all it is tied to) another pitch. */
  | { readonly kind: "repitch"; readonly at: Address; readonly content: Content }
  /**
   * Makes the note at a place (with all it is tied to) so long. Longer, it goes over what follows; shorter, on the pipes the next note begins that much
   * earlier if it touches, and elsewhere there is a rest.
   */
  | { readonly kind: "resize"; readonly at: Address; readonly ticks: Ticks }
  /** Takes the note from one place to another, in time and pitch; where it was, the note before is held (on the pipes) or there is a rest. */
  | { readonly kind: "move"; readonly at: Address; readonly to: Address; readonly content: Content }
  /** Divides the note at a place in two, the first so long. On the pipes the second gets the gracenote that divides them. */
  | { readonly kind: "split"; readonly at: Address; readonly ticks: Ticks }
  /** Ties the note at a place to the next like note, or unties it. */
  | { readonly kind: "tie"; readonly at: Address; readonly tied: boolean }
  /** Empties a stretch of time: a rest. Bars that a player doubles become his own. */
  | { readonly kind: "clear"; readonly from: Address; readonly ticks: Ticks }
  | { readonly kind: "gracenotes"; readonly at: Address; readonly gracenotes: readonly PlainNote[] }
  | { readonly kind: "syllables"; readonly at: Address; readonly syllables: readonly Syllable[] }
  /** Lets the chanter start with a note; the note before the silence is cut off. Off: both marks go. */
  | { readonly kind: "strike-in"; readonly at: Address; readonly on: boolean }
  /** Lets the chanter stop after a note; the next note is struck in. Off: both marks go. */
  | { readonly kind: "cut-off"; readonly at: Address; readonly on: boolean }
  /** Holds the note before through a rest and those after it, up to the next note; where none follows, to the end of the bar. */
  | { readonly kind: "hold"; readonly at: Address }
  /** Puts a copied stretch of one line down, over whatever was there. */
  | { readonly kind: "paste"; readonly at: Address; readonly clip: StretchClip }
  /** Puts empty bars in front of the bar at an index, in the meter, key and tempo of the bar before it. */
  | { readonly kind: "insert-bars"; readonly before: number; readonly count: number }
  | { readonly kind: "insert-clip"; readonly before: number; readonly clip: BarClip }
  /** Takes bars out; one stays. Repeat signs and section names on them move to the bars beside them. */
  | { readonly kind: "remove-bars"; readonly range: BarRange }
  | { readonly kind: "title"; readonly title: string }
  | { readonly kind: "credits"; readonly credits: Credits }
  | { readonly kind: "band-a"; readonly bandA: Hertz }
  /** Moves the bar lines through the music (or, where no one plays yet, keeps the number of bars). Refused where a section would begin inside a bar. */
  | { readonly kind: "meter"; readonly range: BarRange; readonly meter: Meter }
  /** Makes the first bar a pickup of this length, or a whole bar again (null). */
  | { readonly kind: "pickup"; readonly ticks: Ticks | null }
  | { readonly kind: "tempo"; readonly range: BarRange; readonly tempo: Tempo }
  | { readonly kind: "key"; readonly range: BarRange; readonly key: Key }
  /**
   * Moves the band by an interval (staff steps, semitones): its key, its chords and the bars its players have to themselves; neither the pipes nor
   * who doubles them.
   */
  | { readonly kind: "move-band"; readonly range: BarRange; readonly diatonic: number; readonly chromatic: number }
  | { readonly kind: "section"; readonly bar: number; readonly section: Section | null }
  | { readonly kind: "chords"; readonly bar: number; readonly chords: readonly Chord[] }
  /** Lets a tune of a medley begin with a bar, or takes its heading away (null). */
  | { readonly kind: "tune"; readonly bar: number; readonly tune: Tune | null }
  /** Puts repeat signs round bars; off: takes away those of every repeat the bars touch, endings too. */
  | { readonly kind: "repeat"; readonly range: BarRange; readonly on: boolean }
  /** A first ending closes the repeat at its last bar; a second one stands right after a first. */
  | { readonly kind: "ending"; readonly range: BarRange; readonly ending: 1 | 2 | null }
  | { readonly kind: "setup"; readonly line: LineId; readonly setup: PipeSetup }
  | { readonly kind: "add-pipes"; readonly id: LineId; readonly name: string; readonly setup: PipeSetup }
  | {
      readonly kind: "add-player";
      readonly id: LineId;
      readonly name: string;
      readonly player: PlayerId;
      readonly doubles: LineId | null;
      readonly octaves: number;
    }
  | { readonly kind: "rename-line"; readonly line: LineId; readonly name: string }
  | { readonly kind: "remove-line"; readonly line: LineId }
  /** Lets a player double a pipe line in these bars. */
  | { readonly kind: "double"; readonly line: LineId; readonly range: BarRange; readonly of: LineId; readonly octaves: number }
  /** Turns doubled bars into ordinary notes of the player's own. */
  | { readonly kind: "make-own"; readonly line: LineId; readonly range: BarRange };
