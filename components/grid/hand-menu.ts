import { css, html, LitElement } from "lit";
import { controls, focusRing } from "../shared/styles.ts";
import { type HandWord, isOffered } from "./hand-words.ts";

const GAP = 8;

/**
 * The words for what is chosen, as a menu at the mouse.
 *
 * @fires word-pressed
 */
export class HandMenu extends LitElement {
  static override properties = { words: { state: true } };

  declare private words: readonly HandWord[];

  static override styles = [
    controls,
    focusRing,
    css`
      [popover] {
        inset: auto;
        margin: 0;
        padding: 4px;
        border: 1px solid var(--rule);
        border-radius: var(--r-sheet);
        background: var(--paper);
        color: var(--ink);
        box-shadow: var(--shadow-lift);
      }
      button {
        display: flex;
        justify-content: space-between;
        gap: 32px;
        inline-size: 100%;
        min-block-size: 30px;
        padding: 4px 12px;
        border: 0;
        border-radius: var(--r-4);
        background: none;
        color: var(--ink);
        font: 500 14px/20px var(--sans);
        text-align: start;
        cursor: pointer;
      }
      button span {
        color: var(--ink-3);
        font-weight: 400;
      }
      button:hover:enabled {
        background: var(--paper-dim);
      }
      button:disabled {
        color: var(--ink-3);
        cursor: default;
      }
      button:focus-visible {
        outline-offset: -2px;
      }
      @media (pointer: coarse) {
        button {
          min-block-size: 44px;
        }
      }
    `,
  ];

  constructor() {
    super();
    this.words = [];
  }

  override render() {
    return html`<div popover="auto" role="menu" aria-label="What can be done" @keydown=${this.#key}>
      ${this.words.map(
        (word) =>
          html`<button type="button" role="menuitem" tabindex="-1" ?disabled=${!isOffered(word)} @click=${() => this.#press(word)}>${word.words}<span aria-hidden="true">${word.key}</span></button>`,
      )}
    </div>`;
  }

  /** Opens the menu at a place of the window, px. */
  async show(words: readonly HandWord[], x: number, y: number): Promise<void> {
    this.words = words;
    await this.updateComplete;
    const panel = this.#panel;
    panel.showPopover();
    const { width, height } = panel.getBoundingClientRect();
    panel.style.left = `${Math.max(GAP, Math.min(innerWidth - width - GAP, x))}px`;
    panel.style.top = `${Math.max(GAP, Math.min(innerHeight - height - GAP, y))}px`;
    this.#items[0]?.focus();
  }

  get #panel(): HTMLElement {
    return this.renderRoot.querySelector("[popover]") as HTMLElement;
  }

  get #items(): readonly HTMLElement[] {
    return [...this.renderRoot.querySelectorAll<HTMLElement>("button:not(:disabled)")];
  }

  #press(word: HandWord): void {
    this.#panel.hidePopover();
    this.dispatchEvent(new CustomEvent("word-pressed", { detail: { word } }));
  }

  readonly #key = (event: KeyboardEvent): void => {
    const items = this.#items;
    const here = items.indexOf(event.target as HTMLElement);
    const goals: Readonly<Record<string, number>> = { ArrowDown: here + 1, ArrowUp: here - 1, Home: 0, End: items.length - 1 };
    const goal = goals[event.key];
    if (goal === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    items[(goal + items.length) % items.length]?.focus();
  };
}

customElements.define("hand-menu", HandMenu);

declare global {
  interface HTMLElementTagNameMap {
    "hand-menu": HandMenu;
  }
}
