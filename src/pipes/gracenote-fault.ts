import { assertNever } from "../units/assert-never.ts";
import { type ChanterNote, isCrossFingered, type PlainNote } from "./chanter-note.ts";
import type { MovementFault } from "./gracenote-movement.ts";
import { asSentence, gracenoteInWords, strikeInWords, theGracenote } from "./gracenote-words.ts";
import { noteName } from "./note-names.ts";
import { USUAL_STRIKES } from "./usual-strikes.ts";

/** Why a gracenote cannot stand where it stands. */
export type GracenoteFault =
  | MovementFault
  /** These fingers would have to fall together, more than a strike has. */
  | { readonly kind: "strikes-several"; readonly fingers: readonly number[] }
  /** Its finger is off already on what sounds before it. */
  | { readonly kind: "off-before" }
  /** A G struck with the thumb, and no high A before it. */
  | { readonly kind: "struck-from-below" }
  /** What sounds before it sounds the same. */
  | { readonly kind: "sounds-already" };

/** Where the gracenote stands that cannot. */
export interface FaultPlace {
  readonly gracenote: PlainNote;
  /** What sounds before it. */
  readonly previous: { readonly kind: "gracenote" | "note"; readonly note: ChanterNote } | null;
  /** The gracenote after it; null when the note itself follows. */
  readonly follower: PlainNote | null;
  readonly note: ChanterNote;
}

/** The reason in a sentence or two, the fact first: `On D its finger is off already: a D gracenote fits only on notes below D.` */
export function gracenoteFaultSentence(place: FaultPlace, fault: GracenoteFault): string {
  const gracenote = gracenoteInWords(place.gracenote);
  const strike = strikeInWords(place.gracenote);
  switch (fault.kind) {
    case "nothing-to-move":
      return place.follower === null
        ? nothingToMove(place.gracenote, place.note)
        : `${asSentence(gracenote)} ${where(place)} is not heard: the two sound as one.`;
    case "sounds-otherwise":
      return fitsBelow(place.gracenote)
        ? `${asSentence(gracenote)} fits only on notes below ${noteName(place.gracenote)}: ${where(place)} its finger changes nothing.`
        : `${asSentence(strike)} cannot be struck ${where(place)}.${suggestion(place)}`;
    case "lifts-several":
      return `${asSentence(gracenote)} ${where(place)} would lift ${counted(fault.fingers)} at once. A gracenote lifts one.`;
    case "strikes-several":
      return `${asSentence(strike)} struck ${where(place)} would put down ${counted(fault.fingers)} at once.${suggestion(place)}`;
    case "off-before":
      return `After ${previous(place)} the ${fingerOf(place.gracenote)} is off already, so ${gracenote} has nothing to lift.`;
    case "struck-from-below":
      return "Next to high A the first finger is off already. Only between two high As can a G be struck, with the thumb.";
    case "sounds-already":
      return `After ${previous(place)} ${gracenote} is not heard: the two sound as one.`;
    default:
      return assertNever(fault);
  }
}

function nothingToMove(gracenote: PlainNote, note: ChanterNote): string {
  const name = noteName(note);
  switch (gracenote) {
    case "low-g":
      return "On low G every finger is down already: there is none to strike.";
    case "high-g":
      return `On ${name} the first finger is off already, so a G gracenote has nothing to lift. Take a thumb gracenote, or strike an F.`;
    case "high-a":
      return `On ${name} the thumb is off already, so a thumb gracenote has nothing to lift.`;
    case "d":
    case "e":
      return `On ${name} its finger is off already: ${gracenoteInWords(gracenote)} fits only on notes below ${noteName(gracenote)}.`;
    default:
      return `${asSentence(gracenoteInWords(gracenote))} on ${name} is not heard: it is the note itself.`;
  }
}

/** `three fingers`; never fewer than two are at fault. */
function counted(fingers: readonly number[]): string {
  return `${["two", "three", "four", "five", "six", "seven", "eight"][fingers.length - 2]} fingers`;
}

function where({ follower, note }: FaultPlace): string {
  return follower === null ? `on ${noteName(note)}` : `before ${gracenoteInWords(follower)}`;
}

function previous({ previous: before }: FaultPlace): string {
  if (before === null) return "silence";
  return before.kind === "note" ? noteName(before.note) : theGracenote(before.note as PlainNote);
}

function fingerOf(gracenote: PlainNote): string {
  return gracenote === "high-a" ? "thumb" : "first finger";
}

/** Whether a gracenote that is neither in reach nor struck is told by the rule that every piper learns: below its own note. */
function fitsBelow(gracenote: PlainNote): boolean {
  return gracenote === "d" || gracenote === "e";
}

function suggestion({ follower, note }: FaultPlace): string {
  if (follower !== null || isCrossFingered(note)) return "";
  const [strike] = USUAL_STRIKES[note];
  return strike === undefined ? "" : ` The strike there is ${strikeInWords(strike)}.`;
}
