import { css, html, LitElement, type PropertyValues } from "lit";
import { focusRing, visuallyHidden } from "./styles.ts";

/** How far the panel stays from the word and from the window's edge, in px. */
const GAP = 8;

/**
 * A setting that stands in a sentence, underlined like a blank that has been filled in. Pressing it opens a small panel (the
 * default slot) in which it can be changed; Escape or a press elsewhere closes it and gives the focus back to the word.
 *
 * @fires panel-opened before the panel is shown, so that its content can be made fresh
 * @fires panel-closed after it has gone
 */
export class FilledBlank extends LitElement {
  static override properties = {
    words: { type: String },
    label: { type: String },
    open: { state: true },
  };

  /** What stands in the sentence. */
  declare words: string;
  /** What it is, for those who hear the page: `Chanter`. Also the panel's name. */
  declare label: string;
  declare private open: boolean;
  #focusWasInside = false;

  constructor() {
    super();
    this.words = "";
    this.label = "";
    this.open = false;
  }

  static override styles = [
    focusRing,
    visuallyHidden,
    css`
      :host {
        display: inline;
      }
      button {
        font: inherit;
        font-weight: 600;
        color: var(--ink);
        background: none;
        border: 0;
        padding: 0;
        margin: 0;
        text-decoration: underline 1px dotted var(--steel);
        text-underline-offset: 4px;
        cursor: pointer;
        text-align: start;
        border-radius: var(--r-4);
      }
      button:hover,
      button[aria-expanded="true"] {
        color: var(--steel);
      }
      [popover] {
        box-sizing: border-box;
        inset: auto;
        margin: 0;
        max-inline-size: min(440px, calc(100vw - 32px));
        max-block-size: calc(100dvh - 32px);
        overflow: auto;
        padding: 16px;
        border: 1px solid var(--rule);
        border-radius: var(--r-sheet);
        background: var(--paper);
        color: var(--ink);
        box-shadow: var(--shadow-lift);
        font: 400 15px/24px var(--serif);
        text-align: start;
        white-space: normal;
      }
      @media (max-width: 599px) {
        [popover] {
          inset: auto 0 0 0;
          max-inline-size: none;
          inline-size: 100%;
          max-block-size: 80dvh;
          border-inline: 0;
          border-block-end: 0;
        }
        button {
          /* Grows the touch area to 44 px without moving the sentence's lines. */
          padding-block: 10px;
          margin-block: -10px;
        }
      }
    `,
  ];

  override render() {
    return html`<button
        type="button"
        aria-haspopup="dialog"
        aria-expanded=${this.open ? "true" : "false"}
        @click=${this.#toggle}
      ><span class="heard">${this.label ? `${this.label}: ` : ""}</span>${this.words}</button
      ><div popover="auto" role="dialog" aria-label=${this.label || this.words} @beforetoggle=${this.#aboutToToggle} @toggle=${this.#toggled}>${this.open ? html`<slot></slot>` : null}</div>`;
  }

  /** Opens the panel. */
  show(): void {
    if (this.open) return;
    this.dispatchEvent(new CustomEvent("panel-opened"));
    this.open = true;
    this.#panel.showPopover();
  }

  /** Closes the panel; the focus goes back to the word. */
  hide(): void {
    this.#panel.hidePopover();
  }

  override focus(): void {
    this.renderRoot.querySelector("button")?.focus();
  }

  protected override updated(changed: PropertyValues): void {
    if (changed.has("open") && this.open) {
      this.#place();
      this.#focusFirst();
      void this.#whenThere();
    }
  }

  /** A panel that is still being fetched is put in its place, and given the keys, once it is there. */
  async #whenThere(): Promise<void> {
    const missing = [...this.children].filter((child) => child.matches(":not(:defined)"));
    if (missing.length === 0) return;
    await Promise.all(missing.map(({ localName }) => customElements.whenDefined(localName)));
    await Promise.all(missing.map((child) => (child as LitElement).updateComplete));
    if (!this.open) return;
    this.#place();
    this.#focusFirst();
  }

  get #panel(): HTMLElement {
    return this.renderRoot.querySelector("[popover]") as HTMLElement;
  }

  /** Whether the word or something in the panel is the focused element, be the window in front or not. */
  get #hasFocus(): boolean {
    const active = (this.getRootNode() as Document | ShadowRoot).activeElement;
    return active !== null && this.contains(active);
  }

  readonly #toggle = (): void => {
    if (this.open) this.hide();
    else this.show();
  };

  /** Asked before the panel goes: what stands in a hidden panel loses the focus before the news of the hiding comes. */
  readonly #aboutToToggle = (event: ToggleEvent): void => {
    if (event.newState === "closed") this.#focusWasInside = this.#hasFocus;
  };

  readonly #toggled = (event: ToggleEvent): void => {
    if (event.newState === "open") return;
    this.open = false;
    this.dispatchEvent(new CustomEvent("panel-closed"));
    if (this.#focusWasInside) this.focus();
  };

  /** Under the word where there is room, over it where there is not; a sheet at the foot on a phone (by the style sheet). */
  #place(): void {
    const panel = this.#panel;
    if (matchMedia("(max-width: 599px)").matches) {
      panel.style.removeProperty("left");
      panel.style.removeProperty("top");
      return;
    }
    const word = (this.renderRoot.querySelector("button") as HTMLElement).getBoundingClientRect();
    const size = panel.getBoundingClientRect();
    const left = Math.max(GAP, Math.min(word.left, innerWidth - size.width - GAP));
    const below = word.bottom + GAP;
    const top = below + size.height <= innerHeight - GAP ? below : Math.max(GAP, word.top - GAP - size.height);
    panel.style.left = `${left}px`;
    panel.style.top = `${top}px`;
  }

  #focusFirst(): void {
    firstFocusable(this.children)?.focus();
  }
}

/** The first of some elements, and what they hold, that can take the focus; a panel that is an element of its own is looked into. */
function firstFocusable(elements: Iterable<Element>): HTMLElement | null {
  for (const element of elements) {
    if (element instanceof HTMLElement && isFocusable(element)) return element;
    const inside = firstFocusable([...(element.shadowRoot?.children ?? []), ...element.children]);
    if (inside) return inside;
  }
  return null;
}

function isFocusable(element: Element): boolean {
  if (element.hasAttribute("autofocus")) return true;
  return element.matches(
    "input:not([disabled]), select:not([disabled]), textarea:not([disabled]), button:not([disabled]), a[href], [tabindex='0']",
  );
}

customElements.define("filled-blank", FilledBlank);

declare global {
  interface HTMLElementTagNameMap {
    "filled-blank": FilledBlank;
  }
}
