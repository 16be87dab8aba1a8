import { css, html, LitElement, nothing, type PropertyValues, svg } from "lit";
import { barNumber } from "../../src/score/bar-number.ts";
import type { Score } from "../../src/score/score.ts";
import { sectionsOf } from "../../src/score/section-around.ts";
import { styleMap } from "../shared/style-map.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import { barAtPlace, barPlaces, totalWidth } from "./bar-places.ts";
import type { GridView } from "./grid-viewport.ts";

/** A section that is drawn narrower has no room for a name, nor for a finger; px. */
const LEAST_NAMED = 20;

/** The bracket is never drawn narrower, so that it can be taken hold of; px. */
const LEAST_BRACKET = 16;

/**
 * The whole sketch to scale. The steel bracket is what is in view: drag it, move it by keys, or press a section's name.
 *
 * @fires view-asked another part of the sketch is to be in view: px from its start
 */
export class FormRibbon extends LitElement {
  static override properties = {
    score: { attribute: false },
    widths: { attribute: false },
    view: { attribute: false },
    length: { state: true },
  };

  declare score: Score | null;
  /** How wide each bar is on the grid, px. */
  declare widths: readonly number[];
  /** What is in view; null until the grid has said so. */
  declare view: GridView | null;
  /** How long the ribbon is, px. */
  declare private length: number;

  #resized: ResizeObserver | null = null;
  /** Where in the bracket a drag took hold, px of the ribbon; null while nothing is dragged. */
  #grip: number | null = null;

  static override styles = [
    controls,
    focusRing,
    visuallyHidden,
    css`
      :host {
        display: grid;
        contain: layout style;
        grid-template-columns: 216px minmax(0, 1fr) 84px;
        block-size: 26px;
      }
      .cap {
        font: 400 12px/24px var(--sans);
        padding-inline-start: 8px;
      }
      .ribbon {
        position: relative;
        touch-action: none;
        cursor: pointer;
      }
      svg {
        position: absolute;
        inset: 0;
        inline-size: 100%;
        block-size: 100%;
        pointer-events: none;
        overflow: visible;
      }
      .form {
        stroke: var(--line);
        stroke-width: 1.25;
        fill: none;
      }
      .bracket {
        position: absolute;
        top: 17px;
        block-size: 8px;
        border: 2px solid var(--steel);
        border-radius: 4px;
        background: var(--paper);
        cursor: grab;
        touch-action: none;
      }
      .bracket::after {
        content: "";
        position: absolute;
        inset: -10px 0;
      }
      .bracket:active {
        cursor: grabbing;
      }
      .section {
        position: absolute;
        top: 2px;
        overflow: hidden;
        white-space: nowrap;
        text-overflow: ellipsis;
        border: 0;
        padding: 0 4px 0 0;
        background: none;
        color: var(--ink-2);
        font: 400 12px/16px var(--sans);
        text-align: start;
        cursor: pointer;
      }
      .section:hover {
        color: var(--steel);
      }
      @media (max-width: 599px) {
        :host {
          grid-template-columns: 16px minmax(0, 1fr) 16px;
          block-size: 24px;
        }
        .cap > * {
          display: none;
        }
        .section {
          display: none;
        }
        .bracket {
          top: 8px;
        }
        .bracket::after {
          inset: -18px -12px;
        }
      }
    `,
  ];

  constructor() {
    super();
    this.score = null;
    this.widths = [];
    this.view = null;
    this.length = 0;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#resized?.disconnect();
    this.#resized = null;
  }

  /** What is written in the bars does not show here: an edit of notes leaves the ribbon as it is. */
  protected override shouldUpdate(changed: PropertyValues<this>): boolean {
    return changed.size > 1 || !changed.has("score") || changed.get("score")?.frames !== this.score?.frames;
  }

  protected override updated(_changed: PropertyValues<this>): void {
    const ribbon = this.renderRoot.querySelector(".ribbon");
    if (ribbon === null) return;
    this.#resized ??= new ResizeObserver(() => {
      this.length = this.renderRoot.querySelector(".ribbon")?.clientWidth ?? 0;
    });
    this.#resized.observe(ribbon);
  }

  override render() {
    const { score, view } = this;
    if (score === null) return nothing;
    const places = barPlaces(this.widths);
    const sections = sectionsOf(score.frames).map(({ name, range }) => ({
      name: score.frames[range.first]?.tune?.title ?? name,
      first: range.first,
      left: this.#scaled(places[range.first] ?? 0),
      right: this.#scaled(places[range.last + 1] ?? 0),
    }));
    const low = matchMedia("(max-width: 599px)").matches ? 12 : 21;
    return html`<span class="cap"><span>The whole sketch</span></span>
      <div class="ribbon" @pointerdown=${this.#pressed}>
        <svg aria-hidden="true">${svg`<path class="form" d=${sections.map(({ left, right }) => `M${left + 1} ${low}H${Math.max(left + 2, right - 2)}`).join("")}></path>`}</svg>
        ${sections.map(({ name, first, left, right }) =>
          name === "" || right - left < LEAST_NAMED
            ? nothing
            : html`<button
                class="section"
                type="button"
                tabindex="-1"
                title=${name}
                style=${styleMap({ left: `${left}px`, width: `${right - left}px` })}
                @pointerdown=${(event: Event) => event.stopPropagation()}
                @click=${() => this.#ask(places[first] ?? 0)}
              >${name}</button>`,
        )}
        ${view === null ? nothing : this.#drawBracket(score, view)}
      </div>
      <span></span>`;
  }

  #drawBracket(score: Score, view: GridView) {
    const { left, width } = this.#bracket(view);
    const first = barNumber(score, view.firstBar);
    const last = barNumber(score, view.lastBar);
    return html`<div
      class="bracket"
      role="slider"
      tabindex="0"
      aria-label="Bars in view"
      aria-orientation="horizontal"
      aria-valuemin=${barNumber(score, 0)}
      aria-valuemax=${barNumber(score, score.frames.length - 1)}
      aria-valuenow=${first}
      aria-valuetext=${`Bars ${first} to ${last}${this.#sectionNames(score, view)}`}
      style=${styleMap({ left: `${left}px`, width: `${width}px` })}
      @keydown=${this.#key}
      @pointermove=${this.#dragged}
      @pointerup=${this.#letGo}
      @pointercancel=${this.#letGo}
    ></div>`;
  }

  #sectionNames(score: Score, view: GridView): string {
    const names = sectionsOf(score.frames)
      .filter(({ name, range }) => name !== "" && range.first <= view.lastBar && range.last >= view.firstBar)
      .map(({ name }) => name);
    return names.length === 0 ? "" : `, ${names.join(", ")}`;
  }

  #bracket(view: GridView): { readonly left: number; readonly width: number } {
    const end = Math.min(totalWidth(this.widths), view.scrollLeft + view.viewWidth);
    const width = Math.max(LEAST_BRACKET, this.#scaled(end) - this.#scaled(view.scrollLeft));
    return { left: Math.min(this.#scaled(view.scrollLeft), Math.max(0, this.length - width)), width };
  }

  /** Px of the grid as px of the ribbon. */
  #scaled(x: number): number {
    const total = totalWidth(this.widths);
    return total === 0 ? 0 : Math.round((x / total) * this.length * 10) / 10;
  }

  readonly #pressed = (event: PointerEvent): void => {
    const { view } = this;
    if (view === null || event.button !== 0) return;
    const bracket = this.renderRoot.querySelector(".bracket") as HTMLElement;
    const x = event.clientX - this.#ribbonLeft();
    const { left, width } = this.#bracket(view);
    const inside = x >= left - 12 && x <= left + width + 12;
    this.#grip = inside ? x - left : width / 2;
    bracket.setPointerCapture(event.pointerId);
    bracket.focus({ preventScroll: true });
    event.preventDefault();
    if (!inside) this.#dragged(event);
  };

  readonly #dragged = (event: PointerEvent): void => {
    if (this.#grip === null || this.length === 0) return;
    const left = event.clientX - this.#ribbonLeft() - this.#grip;
    this.#ask((left / this.length) * totalWidth(this.widths));
  };

  readonly #letGo = (): void => {
    this.#grip = null;
  };

  readonly #key = (event: KeyboardEvent): void => {
    const { view, score } = this;
    if (view === null || score === null) return;
    const places = barPlaces(this.widths);
    const bar = barAtPlace(this.widths, view.scrollLeft);
    const onBar = Math.abs((places[bar] ?? 0) - view.scrollLeft) < 1;
    const goals: Readonly<Record<string, number>> = {
      ArrowRight: places[bar + 1] ?? 0,
      ArrowUp: places[bar + 1] ?? 0,
      ArrowLeft: places[onBar ? Math.max(0, bar - 1) : bar] ?? 0,
      ArrowDown: places[onBar ? Math.max(0, bar - 1) : bar] ?? 0,
      PageDown: view.scrollLeft + view.viewWidth,
      PageUp: view.scrollLeft - view.viewWidth,
      Home: 0,
      End: totalWidth(this.widths),
    };
    const goal = goals[event.key];
    if (goal === undefined) return;
    event.preventDefault();
    this.#ask(goal);
  };

  #ribbonLeft(): number {
    return (this.renderRoot.querySelector(".ribbon") as HTMLElement).getBoundingClientRect().left;
  }

  #ask(scrollLeft: number): void {
    const detail = { scrollLeft: Math.max(0, scrollLeft) };
    this.dispatchEvent(new CustomEvent("view-asked", { detail, bubbles: true, composed: true }));
  }
}

customElements.define("form-ribbon", FormRibbon);

declare global {
  interface HTMLElementTagNameMap {
    "form-ribbon": FormRibbon;
  }
}
