import type { Score } from "../score/score.ts";
import { NOTHING, type Selection } from "./selection.ts";

/** A state of the sketch, with what was chosen in it. */
interface State {
  readonly score: Score;
  readonly selection: Selection;
  /** What was done to come here, as it follows "Undo": `place low A`. Empty for the first state. */
  readonly label: string;
  /** The gesture it came from (a drag, a held key), so that the next step of the same gesture replaces it; null when it stands alone. */
  readonly gesture: string | null;
}

/** The states of a sketch, immutable like the scores themselves. Undo gives back the very score that was there, not an equal one. */
export interface History extends State {
  /** Oldest first; what undo goes back to is last. */
  readonly past: readonly State[];
  /** What redo goes forward to is first. */
  readonly future: readonly State[];
}

/** How many steps can be undone. They share nearly everything, so they cost little. */
export const MOST_STEPS = 2000;

/** A history that begins with a score as it was opened. */
export function historyOf(score: Score, selection: Selection = NOTHING): History {
  return { score, selection, label: "", gesture: null, past: [], future: [] };
}

/**
 * The history with one more state; what could be redone is gone. A step of the gesture that the present state came from replaces it, so that one
 * undo takes back the whole gesture. Beyond `MOST_STEPS` the oldest state is forgotten.
 */
export function stepped(history: History, score: Score, label: string, selection: Selection, gesture: string | null = null): History {
  const goesOn = gesture !== null && gesture === history.gesture && history.past.length > 0;
  const past = goesOn ? history.past : [...history.past.slice(1 - MOST_STEPS), stateOf(history)];
  return { score, selection, label, gesture, past, future: [] };
}

/** One step back, with what was chosen then; null when there is none. */
export function undone(history: History): History | null {
  const before = history.past.at(-1);
  if (before === undefined) return null;
  return { ...before, gesture: null, past: history.past.slice(0, -1), future: [stateOf(history), ...history.future] };
}

/** One step forward again; null when there is none. */
export function redone(history: History): History | null {
  const [next, ...future] = history.future;
  if (next === undefined) return null;
  return { ...next, gesture: null, past: [...history.past, stateOf(history)], future };
}

/** What undo would take back (`place low A`), or null when there is nothing. */
export function canUndo(history: History): string | null {
  return history.past.length > 0 ? history.label : null;
}

/** What redo would do again, or null when there is nothing. */
export function canRedo(history: History): string | null {
  return history.future[0]?.label ?? null;
}

function stateOf({ score, selection, label, gesture }: History): State {
  return { score, selection, label, gesture };
}
