import { css, html, LitElement, nothing } from "lit";
import { gracenoteChoiceAt } from "../../src/arranging/gracenote-offers.ts";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { type Asked, addressAt } from "./asked.ts";
import { chosenNote, type HeldNote } from "./chosen-notes.ts";
import { copyTime } from "./clipboard.ts";
import "./gracenote-menu.ts";
import type { GridStep } from "./grid-step.ts";
import { type HandWord, handWords, isOffered } from "./hand-words.ts";
import { type GracenotesTaken, graceNote } from "./note-acts.ts";

/** How many words there is room for. */
const SHOWN = 6;

/** What stands there, out of use, before anything is chosen. */
const FIRST_WORDS = ["Shorter", "Longer", "Gracenote", "Split", "Tie", "Delete"];

/**
 * Six words that change the chosen note or bars, for a hand without keys.
 *
 * @fires edits-asked
 */
export class HandPanel extends LitElement {
  static override properties = {
    score: { attribute: false },
    line: { attribute: false },
    selection: { attribute: false },
    step: { attribute: false },
  };

  declare score: Score | null;
  declare line: LineId;
  declare selection: Selection;
  /** How finely time is drawn: by how much a note gets longer. */
  declare step: GridStep;

  static override styles = [
    controls,
    focusRing,
    css`
      :host {
        display: block;
      }
      .six {
        display: grid;
        grid-template-columns: repeat(3, 1fr);
        border: 1px solid var(--line);
        border-radius: 6px;
        overflow: hidden;
        background: var(--paper);
      }
      .six button {
        min-block-size: 47px;
        border: 0;
        border-inline-end: 1px solid var(--line);
        border-block-end: 1px solid var(--line);
        margin: 0 -1px -1px 0;
        background: none;
        color: var(--ink);
        font: 600 15px/20px var(--sans);
        cursor: pointer;
        touch-action: manipulation;
      }
      .six button:focus-visible {
        outline-offset: -3px;
      }
      .six button:disabled {
        color: var(--ink-3);
        cursor: default;
        font-weight: 400;
      }
    `,
  ];

  constructor() {
    super();
    this.score = null;
    this.line = "";
    this.selection = NOTHING;
    this.step = "eighth";
  }

  override render() {
    const { score } = this;
    if (score === null) return nothing;
    const words = handWords(score, this.line, this.selection, this.step)?.slice(0, SHOWN);
    return html`<div class="six" role="group" aria-label=${this.#held === null ? "The chosen bars" : "The chosen note"}>
        ${
          words?.map(
            (word) => html`<button type="button" ?disabled=${!isOffered(word)} @click=${() => this.#press(word)}>${word.words}</button>`,
          ) ?? FIRST_WORDS.map((word) => html`<button type="button" disabled>${word}</button>`)
        }
      </div>
      <gracenote-menu @gracenotes-chosen=${this.#gracenotesChosen}></gracenote-menu>`;
  }

  #press({ does }: HandWord): void {
    if (does.kind === "ask") this.#ask(does.asked);
    else if (does.kind === "gracenotes") this.#showGracenotes();
    else if (does.kind === "copy" && this.score !== null) {
      copyTime(this.score, this.line, does.from, does.to);
      this.requestUpdate();
    }
  }

  #showGracenotes(): void {
    const held = this.#held;
    if (this.score === null || held === null) return;
    const choice = gracenoteChoiceAt(this.score, addressAt(this.score, this.line, held.from));
    if (choice !== null) void this.renderRoot.querySelector("gracenote-menu")?.show(choice, this.getBoundingClientRect());
  }

  readonly #gracenotesChosen = (event: CustomEvent<GracenotesTaken>): void => {
    const held = this.#held;
    if (this.score !== null && held !== null) this.#ask(graceNote(this.score, this.line, held, event.detail));
  };

  get #held(): HeldNote | null {
    return this.score === null ? null : chosenNote(this.score, this.line, this.selection);
  }

  #ask(asked: Asked | null): void {
    if (asked !== null) this.dispatchEvent(new CustomEvent("edits-asked", { detail: asked, bubbles: true, composed: true }));
  }
}

customElements.define("hand-panel", HandPanel);

declare global {
  interface HTMLElementTagNameMap {
    "hand-panel": HandPanel;
  }
}
