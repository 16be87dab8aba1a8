import { css, html, nothing, type PropertyDeclarations } from "lit";
import { type BarDrawing, STAFF_HEIGHT } from "../../src/engraving/drawing.ts";
import { headDrawing } from "../../src/engraving/head-drawing.ts";
import { levelBars } from "../../src/engraving/level-bars.ts";
import { partCaptions } from "../../src/engraving/part-words.ts";
import { barWidths, PHONE_FILLING, type System, systemsOf } from "../../src/engraving/systems.ts";
import type { Line } from "../../src/score/score.ts";
import { focusRing } from "../shared/styles.ts";
import { inkStyles } from "./notation-styles.ts";
import { PartElement, type PlacedBar } from "./part-element.ts";

/** Staff space 7.6 on a phone. */
const SCALE = 7.6 / 7;

const SIDE = 16;
const LINE_HEIGHT = 120;
const STAFF_TOP = 64;

/** Beyond the window, so much is painted in advance, px. */
const AHEAD = 600;

/** One part on a phone: two bars a line, clef and signature at the head of each, read from top to bottom. */
export class PartScore extends PartElement {
  static override properties: PropertyDeclarations = { width: { attribute: false }, seen: { state: true } };

  /** How wide the page is, px. */
  declare width: number;
  /** Which lines are near the window: first and last. */
  declare private seen: readonly [number, number];
  #lines: readonly System[] = [];
  #rowShown = -1;

  constructor() {
    super();
    this.width = 0;
    this.seen = [0, 8];
  }

  static override styles = [
    focusRing,
    inkStyles,
    css`
      :host {
        display: block;
        position: relative;
        padding-block: 8px 16px;
      }
      header {
        display: flex;
        gap: 4px 16px;
        align-items: baseline;
        flex-wrap: wrap;
        padding-inline: 16px;
      }
      h3 {
        margin: 0;
        font: 600 18px/24px var(--serif);
      }
      p {
        margin: 0;
        font: 400 13px/20px var(--sans);
        color: var(--ink-2);
      }
      .lines {
        position: relative;
      }
      .row {
        position: absolute;
        inline-size: 1px;
        block-size: 120px;
        scroll-margin-block: 16px 112px;
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

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener("scroll", this.#look, { capture: true, passive: true });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener("scroll", this.#look, { capture: true });
  }

  override render() {
    const line = this.shownLine;
    if (line === null || this.width === 0) return nothing;
    const [written, key] = partCaptions(this.score, line, 0);
    return html`<header>
        <h3>${line.name}</h3>
        <p>${written}, ${key}</p>
      </header>
      <div class="lines">
        <svg class="surface" width=${this.width} height=${this.#lines.length * LINE_HEIGHT} aria-hidden="true">
          <g class="bars"></g><rect class="moment" width="1.5"></rect><g class="rings"></g>
        </svg>
        <div class="row"></div>
        ${this.noteList(line)}
      </div>`;
  }

  #systems(line: Line): readonly System[] {
    return systemsOf(this.score, line, (first) => this.#room - this.#head(line, first).width, PHONE_FILLING);
  }

  /** How wide a line of staff is, desk pixels. */
  get #room(): number {
    return Math.floor((this.width - 2 * SIDE) / SCALE);
  }

  #head(line: Line, first: number): BarDrawing {
    const [before, now] = [this.score.frames[first - 1]?.meter, this.score.frames[first]?.meter];
    return headDrawing(this.score, line, first, { meter: before?.beats !== now?.beats || before?.unit !== now?.unit, number: true });
  }

  protected override placedBars(line: Line): readonly PlacedBar[] {
    this.#lines = this.width === 0 ? [] : this.#systems(line);
    const [first, last] = this.seen;
    return this.#lines.slice(first, last + 1).flatMap((system, index) => this.#row(line, system, first + index));
  }

  /** The head of a line counts as a bar before its first, at an index no bar has. */
  #row(line: Line, system: System, row: number): readonly PlacedBar[] {
    const head = this.#head(line, system.first);
    const y = row * LINE_HEIGHT + STAFF_TOP;
    let x = SIDE + head.width * SCALE;
    const widths = barWidths(system, this.#room - head.width, false);
    const bars = levelBars(this.score, line, system, widths).map((drawing, index): PlacedBar => {
      const placed = { bar: system.first + index, drawing, x, y, scale: SCALE };
      x += drawing.width * SCALE;
      return placed;
    });
    return [{ bar: -1 - row, drawing: head, x: SIDE, y, scale: SCALE }, ...bars];
  }

  /** On a page notes have natural spacing, so the line goes from head to head. */
  protected override momentLine(placed: PlacedBar, moment: { readonly bar: number; readonly at: number }) {
    const { x, y, drawing, scale } = placed;
    let [fromAt, fromX] = [0, 0];
    let [toAt, toX] = [Number.POSITIVE_INFINITY, drawing.width];
    for (const { at, box, role } of drawing.groups) {
      if (at === null || (role !== "note" && role !== "rest")) continue;
      if (at <= moment.at && at >= fromAt) [fromAt, fromX] = [at, box.left];
      else if (at > moment.at && at < toAt) [toAt, toX] = [at, box.left];
    }
    const share = Number.isFinite(toAt) ? (moment.at - fromAt) / (toAt - fromAt) : 0;
    return { x: x + (fromX + 4 + (toX - fromX) * share) * scale, top: y - 16 * scale, height: (STAFF_HEIGHT + 32) * scale };
  }

  /** While it plays, the line that sounds is kept in view: the page turns when the moment does, and not before. */
  protected override showMoment(): void {
    super.showMoment();
    const bar = this.moment?.bar ?? -1;
    const row = this.#lines.findIndex(({ first, last }) => first <= bar && bar <= last);
    if (row === this.#rowShown) return;
    this.#rowShown = row;
    const mark = this.renderRoot.querySelector<HTMLElement>(".row");
    if (row < 0 || mark === null) return;
    mark.style.top = `${row * LINE_HEIGHT}px`;
    mark.scrollIntoView({ block: "nearest" });
  }

  readonly #look = (): void => {
    const top = this.surface?.getBoundingClientRect().top ?? 0;
    const first = Math.max(0, Math.floor((-top - AHEAD) / LINE_HEIGHT));
    const last = Math.ceil((window.innerHeight - top + AHEAD) / LINE_HEIGHT);
    if (first !== this.seen[0] || last !== this.seen[1]) this.seen = [first, last];
  };
}

customElements.define("part-score", PartScore);

declare global {
  interface HTMLElementTagNameMap {
    "part-score": PartScore;
  }
}
