import { css, html, nothing, type PropertyDeclarations, type PropertyValues } from "lit";
import { DeskBars } from "../../src/engraving/desk-bars.ts";
import { type DeskSheet, deskSheet } from "../../src/engraving/desk-sheet.ts";
import { headDrawing } from "../../src/engraving/head-drawing.ts";
import { partCaptions } from "../../src/engraving/part-words.ts";
import type { Line } from "../../src/score/score.ts";
import { styleMap } from "../shared/style-map.ts";
import { focusRing } from "../shared/styles.ts";
import { barElement } from "./bar-element.ts";
import { IdleWork } from "./idle.ts";
import { inkStyles } from "./notation-styles.ts";
import { PartElement, type PlacedBar } from "./part-element.ts";
import "./part-score.ts";

/** The sheet's own measures, px: time begins and ends where it does on the grid. */
const LABELS = 216;
const MARGIN = 84;

/** Clef and signature end where bar 1 begins, so the staff begins so far left of it. */
const HEAD = 94;

/** Narrower than this, a part is read in lines, two bars a line. */
const NARROW = 600;

/** How many bars beyond the view are engraved in idle time. */
const AHEAD = 40;

/** One part on the desk: its bars stand under the grid's. */
export class PartSheet extends PartElement {
  static override properties: PropertyDeclarations = {
    widths: { attribute: false },
    scrolled: { attribute: false, noAccessor: true },
    width: { state: true },
    keyShown: { state: true },
  };

  /** How wide each bar is, px: those of the grid. */
  declare widths: readonly number[];
  declare private width: number;
  /** The key the label names: that of the first bar in view. */
  declare private keyShown: string;
  #scrolled = 0;
  #headPainted: object | null = null;
  #headTop = -1;
  #sheet: DeskSheet = { staffTop: 0, height: 0, syllableBaseline: 0 };
  readonly #bars = new DeskBars();
  readonly #idle = new IdleWork();
  readonly #resized = new ResizeObserver(([entry]) => {
    const width = entry?.contentRect.width ?? 0;
    // In the next frame: painting changes the height, which must not happen while the observer is still telling.
    if (width !== this.width) requestAnimationFrame(() => (this.width = width));
  });

  constructor() {
    super();
    this.widths = [];
    this.width = 0;
    this.keyShown = "";
  }

  static override styles = [
    focusRing,
    inkStyles,
    css`
      :host {
        display: block;
        position: relative;
        contain: layout paint style;
        background: var(--paper);
        border-radius: var(--r-sheet);
        box-shadow: var(--shadow-sheet);
        color: var(--ink);
      }
      .sheet {
        position: relative;
        contain: strict;
      }
      .label {
        position: absolute;
        inset: 20px auto auto 8px;
        inline-size: 112px;
      }
      h3 {
        margin: 0;
        font: 600 16px/24px var(--serif);
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      p {
        margin: 0;
        font: 400 12px/15px var(--sans);
        color: var(--ink-2);
      }
      svg.head {
        position: absolute;
        inset: 0 auto auto 122px;
      }
      svg.surface {
        position: absolute;
        inset: 0 auto auto 216px;
      }
      .time {
        position: absolute;
        inset: 0 auto 0 216px;
        overflow: hidden;
      }
      .notes {
        position: absolute;
        inset: 0;
        cursor: pointer;
      }
      .notes:focus-visible {
        outline: none;
      }
      #at {
        position: absolute;
        pointer-events: none;
        border-radius: var(--r-4);
      }
      .notes:focus-visible #at {
        outline: 2px solid var(--steel);
        outline-offset: 2px;
      }
    `,
  ];

  /** How far the grid is scrolled, px. Like the moment, it changes with every frame, so it goes past Lit. */
  get scrolled(): number {
    return this.#scrolled;
  }
  set scrolled(scrolled: number) {
    if (scrolled === this.#scrolled) return;
    this.#scrolled = scrolled;
    if (this.hasUpdated) this.#scroll();
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#resized.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#resized.disconnect();
    this.#idle.stop();
  }

  override render() {
    const line = this.shownLine;
    if (line === null || this.width === 0) return nothing;
    if (this.width < NARROW) {
      return html`<part-score
        .score=${this.score}
        .line=${this.line}
        .selection=${this.selection}
        .findings=${this.findings}
        .chosenFinding=${this.chosenFinding}
        .proposed=${this.proposed}
        .width=${this.width}
      ></part-score>`;
    }
    const [written] = partCaptions(this.score, line, 0);
    const { height } = this.#sheet;
    const time = { inlineSize: `${this.#timeWidth}px` };
    return html`<div class="sheet" style=${styleMap({ blockSize: `${height}px` })}>
      <div class="label">
        <h3 title=${line.name}>${line.name}</h3>
        <p>${written}</p>
        <p>${this.keyShown}</p>
      </div>
      <svg class="head" width=${HEAD} height=${height} aria-hidden="true"></svg>
      <svg class="surface" height=${height} aria-hidden="true" style=${styleMap(time)}>
        <g class="scroll"><g class="bars"></g><rect class="moment" width="1.5"></rect><g class="rings"></g></g>
      </svg>
      ${this.#notes(line, time)}
    </div>`;
  }

  #notes(line: Line, time: Readonly<Record<string, string>>) {
    return html`<div class="time" style=${styleMap(time)}>${this.noteList(line)}</div>`;
  }

  protected override willUpdate(changed: PropertyValues): void {
    const line = this.shownLine;
    if (line !== null && (changed.has("score") || changed.has("line"))) {
      this.#sheet = deskSheet(this.score, line);
      this.#bars.show({ score: this.score, line, syllableBaseline: this.#sheet.syllableBaseline });
    }
    super.willUpdate(changed);
    this.#nameKey();
  }

  protected override updated(changed: PropertyValues): void {
    if (this.width < NARROW) {
      const lines = this.renderRoot.querySelector("part-score");
      if (lines !== null) lines.moment = this.moment;
      return;
    }
    super.updated(changed);
    this.#paintHead();
    this.#shift();
    if (changed.has("score") || changed.has("width")) this.#idle.start(this.#engraveAhead());
  }

  protected override showMoment(): void {
    const lines = this.renderRoot.querySelector("part-score");
    if (lines !== null) lines.moment = this.moment;
    else super.showMoment();
  }

  protected override get shift(): number {
    return this.#scrolled;
  }

  /** Bars in view and one more on the left, whose tie may reach in. */
  protected override placedBars(_line: Line): readonly PlacedBar[] {
    const placed: PlacedBar[] = [];
    let x = 0;
    const right = this.#scrolled + this.#timeWidth;
    for (let bar = 0; bar < this.score.frames.length && x < right; bar += 1) {
      const width = this.widths[bar] ?? 0;
      const next = this.widths[bar + 1] ?? 0;
      if (x + width + next > this.#scrolled) placed.push({ bar, drawing: this.#bars.drawing(bar, width), x, y: this.#staffTop, scale: 1 });
      x += width;
    }
    return placed;
  }

  get #staffTop(): number {
    return this.#sheet.staffTop;
  }

  get #timeWidth(): number {
    return Math.max(0, this.width - LABELS - MARGIN);
  }

  /** The bar that lies at the left edge of the view: what the head says holds from there. */
  get #firstBar(): number {
    let x = 0;
    for (let bar = 0; bar < this.widths.length; bar += 1) {
      x += this.widths[bar] as number;
      if (x > this.#scrolled) return Math.min(bar, this.score.frames.length - 1);
    }
    return Math.max(0, this.score.frames.length - 1);
  }

  #nameKey(): void {
    const line = this.shownLine;
    if (line !== null) [, this.keyShown] = partCaptions(this.score, line, this.#firstBar);
  }

  #scroll(): void {
    this.#nameKey();
    this.#shift();
    this.place();
    this.paint();
    this.#paintHead();
  }

  #shift(): void {
    const scroll = this.surface?.querySelector(".scroll");
    const shifted = `translate(${-this.#scrolled} 0)`;
    if (scroll?.getAttribute("transform") !== shifted) scroll?.setAttribute("transform", shifted);
  }

  /** Clef, signature and meter of the first bar in view. */
  #paintHead(): void {
    const line = this.shownLine;
    const head = this.renderRoot.querySelector("svg.head");
    if (line === null || head === null || this.score.frames.length === 0) return;
    const drawing = headDrawing(this.score, line, this.#firstBar, { meter: true, number: false, least: HEAD });
    if (this.#headPainted === drawing && this.#headTop === this.#staffTop && head.childElementCount > 0) return;
    const element = barElement(drawing);
    element.setAttribute("transform", `translate(${HEAD - drawing.width} ${this.#staffTop})`);
    head.replaceChildren(element);
    this.#headPainted = drawing;
    this.#headTop = this.#staffTop;
  }

  /** Engraves the bars that will be scrolled to next, which also warms up whatever the engine compiles. */
  *#engraveAhead(): Iterator<void> {
    if (this.shownLine === null) return;
    const score = this.score;
    const from = this.#firstBar;
    for (let bar = from; bar < Math.min(score.frames.length, from + AHEAD); bar += 1) {
      if (score !== this.score) return;
      const width = this.widths[bar];
      if (width !== undefined) this.#bars.drawing(bar, width);
      yield;
    }
  }
}

customElements.define("part-sheet", PartSheet);

declare global {
  interface HTMLElementTagNameMap {
    "part-sheet": PartSheet;
  }
}
