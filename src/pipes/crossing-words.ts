import type { ChanterNote, PlainNote } from "./chanter-note.ts";
import type { Crossing } from "./crossing.ts";
import { embellishmentInWords } from "./embellishment.ts";
import { embellishmentOf } from "./embellishments.ts";
import type { FingerChange, PassingNote } from "./finger-change.ts";
import { HOLE_NAMES } from "./fingerings.ts";
import { gracenoteInWords } from "./gracenote-words.ts";
import { noteName, spokenNote } from "./note-names.ts";

/** The notes a crossing is between: the one before (null after silence), and the one it leads to with its gracenotes. */
export interface CrossingPlace {
  readonly from: ChanterNote | null;
  readonly to: ChanterNote;
  readonly gracenotes: readonly PlainNote[];
}

/**
 * What a crossing lets through, in a sentence: `From D to E, fingers that do not move as one sound C, B, low A or low G.` Null when no other
 * note can sound. When every one of them comes of closing before anything opens, or the other way round, it says so.
 */
export function crossingSentence(place: CrossingPlace, crossing: Crossing): string | null {
  if (crossing.notes.length === 0) return null;
  const { hiddenBy } = crossing;
  const unless = hiddenBy === null ? "" : `, unless the ${HOLE_NAMES[hiddenBy] as string} is off first`;
  return `${way(place)}, ${culprits(crossing.steps)} sound ${passingInWords(crossing.notes)}${unless}.`;
}

/** Notes that can sound instead of one another, for the eye: `C, B, low A or low G`. */
export function passingInWords(notes: readonly PlainNote[]): string {
  return alternatives(notes.map(noteName));
}

/** The same for a screen reader, as a sentence: `C, B, low A or low G can sound on the way.` Empty for none. */
export function spokenPassing(notes: readonly PlainNote[]): string {
  if (notes.length === 0) return "";
  const words = `${alternatives(notes.map(spokenNote))} can sound on the way.`;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** `From D to E`, `From D to E with a G gracenote`. */
function way({ from, to, gracenotes }: CrossingPlace): string {
  const notes = from === null ? `To ${noteName(to)}` : `From ${noteName(from)} to ${noteName(to)}`;
  const [first] = gracenotes;
  if (first === undefined) return notes;
  const group = embellishmentOf(gracenotes, { before: from, note: to });
  if (gracenotes.length === 1)
    return `${notes} with ${group?.name === "strike" ? `a strike to ${noteName(first)}` : gracenoteInWords(first)}`;
  return `${notes} with ${group === null ? "its gracenotes" : `a ${embellishmentInWords(group.name)}`}`;
}

function culprits(steps: readonly FingerChange[]): string {
  const letting = steps.filter(({ passing }) => passing.length > 0);
  if (letting.every(({ passing, closes, lifts }) => lifts.length > 0 && passing.every((one) => movedOnly(one, closes))))
    return "fingers closing before the others open";
  if (letting.every(({ passing, closes, lifts }) => closes.length > 0 && passing.every((one) => movedOnly(one, lifts))))
    return "fingers opening before the others close";
  return "fingers that do not move as one";
}

/** Whether a note in between comes of one kind of movement alone, while the other kind is still to come. */
function movedOnly({ moved }: PassingNote, fingers: readonly number[]): boolean {
  return moved.every((finger) => fingers.includes(finger));
}

function alternatives(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}
