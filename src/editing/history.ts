import type { Score } from "../score/score.ts";
import { NOTHING, type Selection } from "./selection.ts";

/** A state of the sketch that can be gone back to. */
export interface HistoryStep {
  readonly score: Score;
  /** What was chosen then. */
  readonly selection: Selection;
  /** What was done to come here, as it follows "Undo": `place low A`. Empty for the first state. */
  readonly label: string;
}

/**
 * The states of a sketch, immutable like the scores themselves. Undo gives back the very score that was there, not an equal one.
 */
export interface History {
  /** Oldest first; what undo goes back to is last. */
  readonly past: readonly HistoryStep[];
  readonly present: HistoryStep;
  /** What redo goes forward to is first. */
  readonly future: readonly HistoryStep[];
  /** The highest revision any state has had, undone ones included: a page that carries a number was made from one state only. */
  readonly highest: number;
  /** Names the gesture the present came from, so that the next step of the same gesture replaces it; null when it is over. */
  readonly gesture: string | null;
}

/** How many steps can be undone. They share nearly everything, so they cost little. */
export const MOST_STEPS = 2000;

/** A history that begins with a score as it was opened. */
export function historyOf(score: Score, selection: Selection = NOTHING): History {
  return { past: [], present: { score, selection, label: "" }, future: [], highest: score.revision, gesture: null };
}

/**
 * The history with one more state; what could be redone is gone. A state with the gesture of the present one (a drag, a held key) replaces it,
 * so that one undo takes back the whole gesture. The score is given a revision that was not used yet.
 */
export function recorded(
  history: History,
  score: Score,
  { label, selection, gesture = null }: { readonly label: string; readonly selection: Selection; readonly gesture?: string | null },
): History {
  const revision = Math.max(score.revision, history.highest + 1);
  const kept = score.revision === revision ? score : { ...score, revision };
  const goesOn = gesture !== null && gesture === history.gesture && history.past.length > 0;
  const past = goesOn ? history.past : [...history.past.slice(-(MOST_STEPS - 1)), history.present];
  return { past, present: { score: kept, selection, label }, future: [], highest: revision, gesture };
}

/** The history with another choice in its present state; choosing is not a step. */
export function reselected(history: History, selection: Selection): History {
  return { ...history, present: { ...history.present, selection } };
}

/** One step back; the history itself when there is none. */
export function undone(history: History): History {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return { ...history, past: history.past.slice(0, -1), present: before, future: [history.present, ...history.future], gesture: null };
}

/** One step forward again; the history itself when there is none. */
export function redone(history: History): History {
  const [next, ...rest] = history.future;
  if (next === undefined) return history;
  return { ...history, past: [...history.past, history.present], present: next, future: rest, gesture: null };
}

/** What undo would take back (`place low A`), or null. */
export function undoLabel(history: History): string | null {
  return history.past.length > 0 ? history.present.label : null;
}

/** What redo would do again, or null. */
export function redoLabel(history: History): string | null {
  return history.future[0]?.label ?? null;
}
