import { applyEdits } from "../../src/editing/apply-edit.ts";
import { type History, historyOf, recorded, redoLabel, redone, reselected, undoLabel, undone } from "../../src/editing/history.ts";
import type { Selection } from "../../src/editing/selection.ts";
import type { Moment } from "../../src/score/address.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { done, type Outcome, refused } from "../../src/units/outcome.ts";

/** What has changed. `moment` comes with every frame while it plays, so listeners should look at the kind first. */
export type SessionChange = "score" | "selection" | "moment";

/** How the score came to be what it is: for those who keep it on the device. */
export type ScoreChange = { readonly kind: "edited"; readonly edits: readonly Edit[] } | { readonly kind: "replaced" };

type Listener = (change: SessionChange) => void;

/**
 * The sketch that is open: its score with its past and future, what is chosen, and the playing position. It knows no
 * elements; the app hands its values down and brings what the elements ask back here.
 */
export class Session {
  #history: History;
  #moment: Moment | null = null;
  readonly #listeners = new Set<Listener>();
  readonly #scoreListeners = new Set<(score: Score, change: ScoreChange) => void>();

  constructor(score: Score) {
    this.#history = historyOf(score);
  }

  get score(): Score {
    return this.#history.present.score;
  }

  get selection(): Selection {
    return this.#history.present.selection;
  }

  /** The playing position, or null while nothing plays. */
  get moment(): Moment | null {
    return this.#moment;
  }

  /** What "Undo" would take back, or null. */
  get undoLabel(): string | null {
    return undoLabel(this.#history);
  }

  /** What "Redo" would do again, or null. */
  get redoLabel(): string | null {
    return redoLabel(this.#history);
  }

  /** Carries out edits as one undo step, all or none. The selection given is what is chosen afterwards. */
  apply(edits: readonly Edit[], label: string, selection: Selection = this.selection): Outcome<Score> {
    const outcome = applyEdits(this.score, edits);
    if (!outcome.ok) return refused(outcome.reason);
    if (outcome.value === this.score) return done(this.score);
    this.#history = recorded(this.#history, outcome.value, { label, selection });
    this.#scoreChanged({ kind: "edited", edits });
    return done(this.score);
  }

  /** Takes the last step back. False when there is none. */
  undo(): boolean {
    return this.#travel(undone(this.#history));
  }

  /** Does the step again that was taken back last. False when there is none. */
  redo(): boolean {
    return this.#travel(redone(this.#history));
  }

  choose(selection: Selection): void {
    this.#history = reselected(this.#history, selection);
    this.#tell("selection");
  }

  /** Where playing is, or null when it has stopped. */
  moveTo(moment: Moment | null): void {
    this.#moment = moment;
    this.#tell("moment");
  }

  /** Hears of every change until the function given back is called. */
  subscribe(listener: Listener): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Hears of every new score and how it came about. */
  subscribeToScore(listener: (score: Score, change: ScoreChange) => void): () => void {
    this.#scoreListeners.add(listener);
    return () => this.#scoreListeners.delete(listener);
  }

  #travel(history: History): boolean {
    if (history === this.#history) return false;
    this.#history = history;
    this.#scoreChanged({ kind: "replaced" });
    return true;
  }

  #scoreChanged(change: ScoreChange): void {
    for (const listener of this.#scoreListeners) listener(this.score, change);
    this.#tell("score");
  }

  #tell(change: SessionChange): void {
    for (const listener of this.#listeners) listener(change);
  }
}
