import type { ChanterNote } from "./chanter-note.ts";
import type { FingerChange, PassingNote } from "./finger-change.ts";
import { HOLE_NAMES } from "./fingerings.ts";
import { noteName } from "./note-names.ts";

/**
 * What a step lets through, in a sentence: `From D to E, fingers that do not move as one sound low G, low A, B or C.` Null when nothing of
 * the nine can sound in between. When every note in between comes of closing before anything opens, or the other way round, it says so.
 */
export function crossingSentence(from: ChanterNote, to: ChanterNote, change: FingerChange): string | null {
  if (change.passing.length === 0) return null;
  const notes = listed(
    change.passing.map(({ note }) => noteName(note)),
    "or",
  );
  return `From ${noteName(from)} to ${noteName(to)}, ${culprits(change)} sound ${notes}.`;
}

/** The fingers of a change for the ear and the eye: `upper ring and lower little lift, lower index closes`. Empty when none moves. */
export function fingersInWords({ lifts, closes }: Pick<FingerChange, "lifts" | "closes">): string {
  return [movingInWords(lifts, "lift"), movingInWords(closes, "close")].filter((words) => words !== "").join(", ");
}

function culprits(change: FingerChange): string {
  if (change.passing.every((passing) => movedOnly(passing, change.closes))) return "fingers closing before the others open";
  if (change.passing.every((passing) => movedOnly(passing, change.lifts))) return "fingers opening before the others close";
  return "fingers that do not move as one";
}

/** Whether a note in between comes of one kind of movement alone, while the other kind is still to come. */
function movedOnly({ moved }: PassingNote, fingers: readonly number[]): boolean {
  return moved.every((finger) => fingers.includes(finger));
}

function movingInWords(fingers: readonly number[], verb: string): string {
  if (fingers.length === 0) return "";
  const names = fingers.map((finger) => HOLE_NAMES[finger] as string);
  return `${listed(names, "and")} ${fingers.length === 1 ? `${verb}s` : verb}`;
}

function listed(words: readonly string[], joiner: "and" | "or"): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${joiner} ${words.at(-1)}`;
}
