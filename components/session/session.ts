import { applyEdits } from "../../src/editing/apply-edit.ts";
import { type History, historyOf, recorded, redoLabel, redone, reselected, undoLabel, undone } from "../../src/editing/history.ts";
import type { Selection } from "../../src/editing/selection.ts";
import type { Moment } from "../../src/score/address.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { done, type Outcome, refused } from "../../src/units/outcome.ts";
import type { Proposal } from "./proposal.ts";

/** What has changed. `moment` comes with every frame while it plays, so listeners should look at the kind first. */
export type SessionChange = "score" | "proposal" | "selection" | "moment";

/** How the score came to be what it is: for those who keep it on the device. */
export type ScoreChange = { readonly kind: "edited"; readonly edits: readonly Edit[] } | { readonly kind: "replaced" };

type Listener = (change: SessionChange) => void;

/**
 * The sketch that is open: its score with its past and future, what is proposed and not kept yet, what is chosen, and the playing position. It
 * knows no elements; the app hands its values down and brings what the elements ask back here.
 */
export class Session {
  #history: History;
  #proposal: Proposal | null = null;
  #moment: Moment | null = null;
  readonly #listeners = new Set<Listener>();
  readonly #scoreListeners = new Set<(score: Score, change: ScoreChange) => void>();

  constructor(score: Score) {
    this.#history = historyOf(score);
  }

  get score(): Score {
    return this.#history.present.score;
  }

  /** What is looked at but not kept yet, or null. */
  get proposal(): Proposal | null {
    return this.#proposal;
  }

  /** What is seen and heard: the proposed score where there is one. What is saved and handed over is always `score`. */
  get shown(): Score {
    return this.#proposal?.score ?? this.score;
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
    return this.#proposal?.label ?? undoLabel(this.#history);
  }

  /** What "Redo" would do again, or null. */
  get redoLabel(): string | null {
    return this.#proposal === null ? redoLabel(this.#history) : null;
  }

  /**
   * Carries out edits as one undo step, all or none. The selection given is what is chosen afterwards. Refused while something is proposed: the
   * edit was meant for what is seen, and what is seen may still be left.
   */
  apply(edits: readonly Edit[], label: string, selection: Selection = this.selection): Outcome<Score> {
    if (this.#proposal !== null) return refused("What you see is only proposed. Keep it or leave it, then go on writing.");
    const outcome = applyEdits(this.score, edits);
    if (!outcome.ok) return refused(outcome.reason);
    if (outcome.value === this.score) return done(this.score);
    this.#history = recorded(this.#history, outcome.value, { label, selection });
    this.#scoreChanged({ kind: "edited", edits });
    return done(this.score);
  }

  /** Takes the last step back, which is to leave what is proposed where something is. False when there is none. */
  undo(): boolean {
    return this.leave() || this.#travel(undone(this.#history));
  }

  /** Does the step again that was taken back last. False when there is none, and while something is proposed. */
  redo(): boolean {
    return this.#proposal === null && this.#travel(redone(this.#history));
  }

  /**
   * Shows a score that is not kept yet, instead of what was proposed before.
   * @throws RangeError when it is the score that is kept: that proposes nothing
   */
  propose(proposal: Proposal): void {
    if (proposal.score === this.score) throw new RangeError("A proposal differs from what is kept.");
    this.#proposal = proposal;
    this.#tell("proposal");
  }

  /** Keeps what is proposed, as one undo step. False when nothing is. */
  keep(): boolean {
    const proposal = this.#proposal;
    if (proposal === null) return false;
    this.#proposal = null;
    const { score, label, edits } = proposal;
    this.#history = recorded(this.#history, score, { label, selection: this.selection });
    this.#scoreChanged(edits === null ? { kind: "replaced" } : { kind: "edited", edits });
    return true;
  }

  /** Shows the kept score again. False when nothing is proposed. */
  leave(): boolean {
    if (this.#proposal === null) return false;
    this.#proposal = null;
    this.#tell("proposal");
    return true;
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
