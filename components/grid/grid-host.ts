import type { Selection } from "../../src/editing/selection.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import type { Asked } from "./asked.ts";
import type { Ghost } from "./gesture.ts";
import type { GridStep } from "./grid-step.ts";
import type { HitField } from "./hit-test.ts";

/** Where the keys are: a time from the start of the score, and a row. */
export interface Caret {
  readonly time: number;
  readonly note: ChanterNote;
}

/** What the hand and the keys need of the grid they work on. */
export interface GridHost {
  readonly score: Score;
  readonly pipes: PipeLine;
  readonly selection: Selection;
  readonly step: GridStep;
  readonly caret: Caret;
  readonly field: HitField;
  /** Sends the edits, and shows what is chosen then. Null: there is nothing to do, and `otherwise` is said. */
  ask(asked: Asked | null, otherwise?: string): void;
  choose(selection: Selection): void;
  /** Moves the keys' place; with `focus` the cell there gets the focus. */
  moveCaret(caret: Caret, focus: boolean): void;
  chooseStep(step: GridStep): void;
  showGhost(ghost: Ghost | null): void;
  showKeys(): void;
  showGracenotes(): void;
  /** Says something to the screen reader. */
  say(words: string): void;
  tell(event: "undo-asked" | "redo-asked" | "gracing-asked" | "audition-asked"): void;
  playFrom(time: number): void;
}
