import { css, html, LitElement, nothing } from "lit";
import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import { gracenotesInReach } from "../../src/pipes/gracenotes-in-reach.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { gracenoteChoice, gracenotesOfKey } from "./gracenote-choice.ts";

/** How much room the menu takes at most, px. */
const WIDTH = 272;
const HEIGHT = 100;
const GAP = 8;

/**
 * A small choice of gracenotes beside a note: press one, or its letter.
 *
 * @fires gracenotes-chosen
 */
export class GracenoteMenu extends LitElement {
  static override properties = { note: { state: true }, now: { state: true } };

  /** The note the gracenote is for; null while the menu is closed. */
  declare private note: ChanterNote | null;
  declare private now: readonly PlainNote[];

  static override styles = [
    controls,
    focusRing,
    css`
      [popover] {
        inset: auto;
        margin: 0;
        padding: 8px;
        border: 1px solid var(--rule);
        border-radius: var(--r-sheet);
        background: var(--paper);
        color: var(--ink);
        box-shadow: var(--shadow-lift);
      }
      p {
        padding: 0 4px 4px;
      }
      .row {
        display: flex;
        gap: 4px;
      }
      button {
        min-inline-size: 44px;
        min-block-size: 44px;
        border: 1px solid var(--rule);
        border-radius: var(--r-4);
        background: var(--paper);
        color: var(--ink);
        font: 500 15px/20px var(--sans);
        cursor: pointer;
      }
      button[aria-pressed="true"] {
        border-color: var(--steel);
        color: var(--steel);
      }
      button:disabled {
        color: var(--ink-3);
        cursor: default;
        border-style: dashed;
      }
    `,
  ];

  constructor() {
    super();
    this.note = null;
    this.now = [];
  }

  override render() {
    return html`<div popover="auto" role="dialog" aria-label="Gracenote" @keydown=${this.#key} @toggle=${this.#toggled}>
      ${this.note === null ? nothing : gracenoteChoice(this.note, this.now, this.#choose)}
    </div>`;
  }

  /** Opens the menu near a place of the window, px. */
  async show(note: ChanterNote, now: readonly PlainNote[], x: number, y: number): Promise<void> {
    this.note = note;
    this.now = now;
    await this.updateComplete;
    const panel = this.#panel;
    panel.showPopover();
    panel.style.left = `${Math.max(GAP, Math.min(innerWidth - WIDTH - GAP, x))}px`;
    panel.style.top = `${Math.max(GAP, Math.min(innerHeight - HEIGHT - GAP, y))}px`;
    panel.querySelector<HTMLElement>("button:not(:disabled)")?.focus();
  }

  get #panel(): HTMLElement {
    return this.renderRoot.querySelector("[popover]") as HTMLElement;
  }

  readonly #choose = (gracenotes: readonly PlainNote[]): void => {
    this.#panel.hidePopover();
    this.dispatchEvent(new CustomEvent("gracenotes-chosen", { detail: { gracenotes } }));
  };

  readonly #key = (event: KeyboardEvent): void => {
    const gracenotes = event.ctrlKey || event.metaKey || event.altKey ? null : gracenotesOfKey(event.key);
    if (gracenotes === null || this.note === null) return;
    event.preventDefault();
    event.stopPropagation();
    const inReach = gracenotesInReach(this.note);
    if (gracenotes.every((gracenote) => inReach.includes(gracenote))) this.#choose(gracenotes);
  };

  readonly #toggled = (event: ToggleEvent): void => {
    if (event.newState === "closed") this.note = null;
  };
}

customElements.define("gracenote-menu", GracenoteMenu);

declare global {
  interface HTMLElementTagNameMap {
    "gracenote-menu": GracenoteMenu;
  }
}
