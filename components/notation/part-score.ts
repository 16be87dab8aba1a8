import { css, html, nothing, type PropertyDeclarations } from "lit";
import { STAFF_HEIGHT } from "../../src/engraving/drawing.ts";
import { engravedBar } from "../../src/engraving/engrave-part.ts";
import { headDrawing } from "../../src/engraving/head-drawing.ts";
import { partCaptions } from "../../src/engraving/part-words.ts";
import type { Line } from "../../src/score/score.ts";
import { focusRing } from "../shared/styles.ts";
import { inkStyles } from "./notation-styles.ts";
import { PartElement, type PlacedBar } from "./part-element.ts";

/** Staff space 7.6 on a phone. */
const SCALE = 7.6 / 7;

const BARS_A_LINE = 2;
const SIDE = 16;
const LINE_HEIGHT = 104;
const STAFF_TOP = 52;

/** Beyond the window, so much is painted in advance, px. */
const AHEAD = 600;

/** One part on a phone: two bars a line, clef and signature at the head of each, read from top to bottom. */
export class PartScore extends PartElement {
  static override properties: PropertyDeclarations = { width: { attribute: false }, seen: { state: true } };

  /** How wide the page is, px. */
  declare width: number;
  /** Which lines are near the window: first and last. */
  declare private seen: readonly [number, number];

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
        <svg class="surface" width=${this.width} height=${this.#lineCount * LINE_HEIGHT} aria-hidden="true">
          <g class="bars"></g><rect class="moment" width="1.5"></rect><g class="rings"></g>
        </svg>
        ${this.noteList(line)}
      </div>`;
  }

  get #lineCount(): number {
    return Math.ceil(this.score.frames.length / BARS_A_LINE);
  }

  protected override placedBars(line: Line): readonly PlacedBar[] {
    const placed: PlacedBar[] = [];
    const [first, last] = this.seen;
    for (let row = first; row <= Math.min(last, this.#lineCount - 1); row += 1) placed.push(...this.#row(line, row));
    return placed;
  }

  /** The head of a line counts as a bar before its first, at an index no bar has. */
  #row(line: Line, row: number): readonly PlacedBar[] {
    const from = row * BARS_A_LINE;
    const bars = this.score.frames.slice(from, from + BARS_A_LINE).map((_, index) => from + index);
    const before = this.score.frames[from - 1]?.meter;
    const now = this.score.frames[from]?.meter;
    const meter = before?.beats !== now?.beats || before?.unit !== now?.unit;
    const head = headDrawing(this.score, line, from, { meter, number: true });
    const y = row * LINE_HEIGHT + STAFF_TOP;
    const width = Math.floor(((this.width - 2 * SIDE) / SCALE - head.width) / BARS_A_LINE);
    return [
      { bar: -1 - row, drawing: head, x: SIDE, y, scale: SCALE },
      ...bars.map((bar, index) => ({
        bar,
        drawing: engravedBar(this.score, line, bar, {
          spacing: "page",
          width,
          firstInSystem: index === 0,
          lastInSystem: index === bars.length - 1,
        }),
        x: SIDE + (head.width + index * width) * SCALE,
        y,
        scale: SCALE,
      })),
    ];
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
