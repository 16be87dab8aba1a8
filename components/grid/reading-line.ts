import { css, html, LitElement, nothing } from "lit";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import "../shared/filled-blank.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import { isEmpty } from "./chosen-notes.ts";
import { NOTICED } from "./grid-rows.ts";
import { type GridStep, stepEntry } from "./grid-step.ts";
import { stepChoice, stepStyles } from "./step-choice.ts";
import "./hand-panel.ts";
import { drawHoles, HOLES_WIDTH } from "./holes-drawing.ts";
import { type NoteReading, type Reading, readingOf } from "./reading.ts";

/** Steps whose undoing is offered at once: something went. */
const TOOK_AWAY = /^(?:delete|remove)\b/;

/**
 * What is chosen, in words: the note, its concert pitch and cents, hertz and holes, the keys most useful now and one offer. A refusal
 * takes its place for as long as the host gives one. On a phone the six words that change a note stand under it.
 *
 * @slot offer what the host offers for the chosen note
 * @fires undo-asked
 * @fires redo-asked
 * @fires edits-asked from the six words
 * @fires step-chosen time is to be drawn in another step
 */
export class ReadingLine extends LitElement {
  static override properties = {
    score: { attribute: false },
    line: { attribute: false },
    selection: { attribute: false },
    refusal: { type: String },
    undoLabel: { attribute: false },
    redoLabel: { attribute: false },
    step: { attribute: false },
    narrow: { state: true },
    byFinger: { state: true },
  };

  declare score: Score | null;
  /** The pipe line that the grid shows. */
  declare line: LineId;
  declare selection: Selection;
  /** Why the last edit was refused; empty when it was not. */
  declare refusal: string;
  /** What undo would take back, or null. */
  declare undoLabel: string | null;
  declare redoLabel: string | null;
  /** How finely time is drawn: by how much "Longer" is longer. */
  declare step: GridStep;
  declare private narrow: boolean;
  declare private byFinger: boolean;

  #narrowQuery = matchMedia("(max-width: 599px)");
  /** A finger has no keys and no second button, however wide the page is. */
  #fingerQuery = matchMedia("(max-width: 599px), (pointer: coarse)");

  static override styles = [
    controls,
    focusRing,
    visuallyHidden,
    stepStyles,
    css`
      :host {
        display: block;
        contain: layout style;
        border-block-start: 1px solid var(--rule-soft);
      }
      .reading {
        display: grid;
        grid-template-columns: 184px minmax(0, 1fr) auto;
        align-items: center;
        min-block-size: 30px;
        padding-inline: 8px 84px;
      }
      .cap {
        font-size: 13px;
      }
      .words {
        font: 400 17px/28px var(--serif);
        white-space: nowrap;
        overflow: hidden;
        text-overflow: ellipsis;
      }
      .words b {
        font-weight: 600;
        color: var(--steel);
      }
      .told {
        display: grid;
        grid-template-columns: minmax(240px, 1fr) auto auto auto auto;
        align-items: center;
        column-gap: 32px;
      }
      .told.plain {
        grid-template-columns: minmax(0, 1fr) auto;
      }
      .figures,
      .passing,
      .keys {
        font: 400 13px/20px var(--sans);
        font-variant-numeric: tabular-nums lining-nums;
        white-space: nowrap;
        color: var(--ink-2);
      }
      .figures b {
        font-weight: 400;
      }
      .figures .off {
        color: var(--ink);
        font-weight: 500;
      }
      .keys {
        color: var(--ink-2);
        display: flex;
        gap: 16px;
      }
      .holes {
        block-size: 11px;
        display: block;
      }
      .hole {
        fill: none;
        stroke: var(--ink);
        stroke-width: 1.25;
      }
      .hole.closed,
      .half {
        fill: var(--ink);
      }
      .refusal {
        font: 400 17px/24px var(--serif);
        padding-block: 2px;
      }
      .offers {
        display: flex;
        gap: 16px;
        padding-inline-start: 24px;
      }
      hand-panel {
        margin: 4px 16px 0;
      }
      .back {
        display: flex;
        justify-content: space-between;
        align-items: baseline;
        gap: 24px;
        padding: 4px 16px 8px;
      }
      .back .step {
        margin-inline-end: auto;
        color: var(--ink-2);
      }
      @media (max-width: 1199px) {
        .passing,
        .keys {
          display: none;
        }
        .told {
          grid-template-columns: minmax(200px, 1fr) auto auto auto;
          column-gap: 20px;
        }
      }
      @media (max-width: 899px) {
        .reading {
          grid-template-columns: minmax(0, 1fr) auto;
          padding-inline: 16px;
        }
        .reading > .cap {
          display: none;
        }
        .told {
          grid-template-columns: 1fr auto;
          row-gap: 0;
          column-gap: 16px;
        }
        .told .hertz {
          display: none;
        }
        .told .holes {
          grid-column: 2;
          grid-row: 1;
        }
      }
      @media (max-width: 599px) {
        :host {
          background: var(--paper-dim);
        }
        .reading {
          grid-template-columns: minmax(0, 1fr);
          padding: 6px 16px 0;
          min-block-size: 64px;
          align-items: start;
        }
        .words {
          font-size: 18px;
        }
        .told .figures {
          grid-column: 1 / 3;
          grid-row: 2;
        }
        /* The row is there for every note, so that nothing moves under the thumb. */
        .passing {
          display: block;
          grid-column: 1 / 3;
          grid-row: 3;
          min-block-size: 20px;
          white-space: normal;
        }
        .offers {
          padding: 0;
        }
        .offers .link {
          padding-block: 4px;
        }
      }
    `,
  ];

  constructor() {
    super();
    this.score = null;
    this.line = "";
    this.selection = NOTHING;
    this.refusal = "";
    this.undoLabel = null;
    this.redoLabel = null;
    this.step = "eighth";
    this.narrow = this.#narrowQuery.matches;
    this.byFinger = this.#fingerQuery.matches;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#narrowQuery.addEventListener("change", this.#narrowChanged);
    this.#fingerQuery.addEventListener("change", this.#narrowChanged);
    this.#narrowChanged();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#narrowQuery.removeEventListener("change", this.#narrowChanged);
    this.#fingerQuery.removeEventListener("change", this.#narrowChanged);
  }

  override render() {
    const line = this.score === null ? null : pipeLineOf(this.score, this.line);
    if (this.score === null || line === null) return nothing;
    const reading = readingOf(this.score, line, this.selection);
    return html`<div class="reading">
        <span class="cap">${this.refusal !== "" ? "Not done" : reading.kind === "nothing" ? "Nothing chosen" : "Chosen"}</span>
        <div>
          <div role="status">${this.refusal === "" ? nothing : html`<p class="refusal">${this.refusal}</p>`}</div>
          ${this.refusal !== "" ? nothing : reading.kind === "note" ? this.#note(reading) : this.#words(reading)}
        </div>
        <span class="offers">${this.#undoOffer()}<slot name="offer"></slot></span>
      </div>
      ${this.byFinger ? this.#hand() : nothing}`;
  }

  #note(reading: NoteReading) {
    const role = reading.role === "" ? "" : `, ${reading.role}`;
    const graced = reading.graced === "" ? "" : ` with ${reading.graced}`;
    const off = Math.abs(reading.offBand) > NOTICED ? "off" : "";
    return html`<div class="told">
      <span class="words"><b>${reading.name}</b>${role}${graced}${this.narrow ? nothing : html`, ${reading.place}.`}</span>
      ${
        this.narrow
          ? html`<span class="figures">${reading.concert} <b class=${off}>${reading.cents}</b> cents&emsp;${reading.hertz}&emsp;${reading.length}</span>`
          : html`<span class="figures">${reading.concert} <b class=${off}>${reading.cents}</b> cents</span><span class="figures hertz">${reading.hertz}</span>`
      }
      <svg class="holes" role="img" aria-label=${reading.spokenHoles} width=${HOLES_WIDTH} height="11" viewBox=${`0 0 ${HOLES_WIDTH} 11`}>${drawHoles(reading.holes)}</svg>
      ${reading.passing === "" && !this.narrow ? this.#keys("note") : html`<span class="passing" title=${reading.crossing}>${reading.passing === "" ? nothing : `on the way: ${reading.passing}`}</span>`}
    </div>`;
  }

  #words(reading: Exclude<Reading, NoteReading>) {
    const words = reading.kind === "stretch" ? capital(reading.words) : this.#firstWords();
    return html`<div class="told plain"><span class="words">${words}</span>${this.#keys(reading.kind)}</div>`;
  }

  #keys(kind: "note" | "stretch" | "nothing") {
    const keys = {
      note: ["Up, down: pitch", "Shift, right: longer"],
      stretch: ["Ctrl D: duplicate the bars", "Delete: empty it"],
      nothing: ["Letters: notes", "?: all keys"],
    }[kind];
    return html`<span class="keys">${keys.map((words) => html`<span>${words}</span>`)}</span>`;
  }

  #firstWords(): string {
    if (this.score !== null && isEmpty(this.score, this.line)) return "Nothing is written yet.";
    return this.narrow ? "Draw along a row." : "Draw along a row, or type its letter, A to G.";
  }

  #undoOffer() {
    const label = this.undoLabel;
    if (this.narrow || label === null || !TOOK_AWAY.test(label)) return nothing;
    return html`<button class="link" type="button" @click=${() => this.#tell("undo-asked")}>Undo ${label}</button>`;
  }

  #hand() {
    return html`<hand-panel .score=${this.score} .line=${this.line} .selection=${this.selection} .step=${this.step}></hand-panel>
      <div class="back">
        <span class="step">drawn in <filled-blank words=${stepEntry(this.step).words} label="Drawn in">${stepChoice(this.step, this.#chooseStep)}</filled-blank></span>
        <button class="link" type="button" ?disabled=${this.undoLabel === null} @click=${() => this.#tell("undo-asked")}>Undo</button>
        <button class="link" type="button" ?disabled=${this.redoLabel === null} @click=${() => this.#tell("redo-asked")}>Redo</button>
      </div>`;
  }

  readonly #chooseStep = (step: GridStep): void => {
    this.step = step;
    this.dispatchEvent(new CustomEvent("step-chosen", { detail: { step }, bubbles: true, composed: true }));
  };

  #tell(event: "undo-asked" | "redo-asked"): void {
    this.dispatchEvent(new CustomEvent(event, { bubbles: true, composed: true }));
  }

  readonly #narrowChanged = (): void => {
    this.narrow = this.#narrowQuery.matches;
    this.byFinger = this.#fingerQuery.matches;
  };
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

customElements.define("reading-line", ReadingLine);

declare global {
  interface HTMLElementTagNameMap {
    "reading-line": ReadingLine;
  }
}
