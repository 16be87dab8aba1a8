import { css, html, LitElement, svg } from "lit";
import { formatHoles, HOLE_NAMES, type Hole, parseHoles } from "../../src/pipes/fingerings.ts";
import type { Holes } from "../../src/pipes/pipe-setup.ts";
import { focusRing } from "../shared/styles.ts";

/** What a press makes of a hole. */
const NEXT: Readonly<Record<Hole, Hole>> = { closed: "open", open: "half", half: "closed" };

const WORDS: Readonly<Record<Hole, string>> = { closed: "closed", open: "open", half: "half open" };

/** The left half of a hole, filled. */
const HALF = svg`<path d="M0-7A7 7 0 0 0 0 7Z" />`;

/** Other holes are wanted. */
export type HolesChangedEvent = CustomEvent<{ readonly holes: Holes }>;

/**
 * Eight holes in the groups of the two hands, thumb first. Each press goes from closed to open to half.
 *
 * @fires holes-changed
 */
export class HoleRow extends LitElement {
  static override properties = { holes: { type: String }, label: { type: String } };

  declare holes: Holes;
  /** Whose holes they are. */
  declare label: string;

  constructor() {
    super();
    this.holes = "X XXX XXXX";
    this.label = "";
  }

  static override styles = [
    focusRing,
    css`
      [role="group"] {
        display: flex;
        flex-wrap: wrap;
      }
      button {
        display: grid;
        place-items: center;
        inline-size: 32px;
        block-size: 32px;
        padding: 0;
        border: 0;
        background: none;
        color: var(--ink);
        cursor: pointer;
        border-radius: var(--r-4);
      }
      button:hover {
        background: var(--paper-dim);
      }
      button:nth-child(2),
      button:nth-child(5) {
        margin-inline-start: 12px;
      }
      circle {
        fill: none;
        stroke: currentColor;
        stroke-width: 1.5;
      }
      .closed circle,
      path {
        fill: currentColor;
      }
      @media (max-width: 599px), (pointer: coarse) {
        button {
          inline-size: 44px;
          block-size: 44px;
        }
        button:nth-child(2),
        button:nth-child(5) {
          margin-inline-start: 0;
        }
      }
    `,
  ];

  override render() {
    return html`<div role="group" aria-label="Holes of ${this.label}, thumb first">
      ${parseHoles(this.holes).map(
        (
          hole,
          index,
        ) => html`<button class=${hole} type="button" aria-label="${HOLE_NAMES[index]}: ${WORDS[hole]}" title="${HOLE_NAMES[index]}: ${WORDS[hole]}" @click=${() => this.#press(index)}>
          <svg viewBox="-9 -9 18 18" width="18" height="18" aria-hidden="true"><circle r="7" />${hole === "half" ? HALF : null}</svg>
        </button>`,
      )}
    </div>`;
  }

  #press(index: number): void {
    const holes = formatHoles(parseHoles(this.holes).map((hole, at) => (at === index ? NEXT[hole] : hole)));
    this.dispatchEvent(new CustomEvent("holes-changed", { detail: { holes } }) satisfies HolesChangedEvent);
  }
}

customElements.define("hole-row", HoleRow);
