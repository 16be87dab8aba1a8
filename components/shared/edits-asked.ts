import type { Edit } from "../../src/score/edit.ts";

/** What an element asks the session to do, as one undo step. */
export interface EditsAsked {
  readonly edits: readonly Edit[];
  /** What the step is called in "Undo …": `longer`, `the key`. */
  readonly label: string;
}

/** Every element that changes the score says so with this event and no other; the app hands it to the session. */
export type EditsAskedEvent = CustomEvent<EditsAsked>;

/** The event, ready to be dispatched; it leaves shadow roots behind it. */
export function editsAsked(label: string, ...edits: readonly Edit[]): EditsAskedEvent {
  return new CustomEvent("edits-asked", { detail: { edits, label }, bubbles: true, composed: true });
}

declare global {
  interface HTMLElementEventMap {
    "edits-asked": EditsAskedEvent;
  }
}
