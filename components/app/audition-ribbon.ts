import { css, html, LitElement, svg } from "lit";
import type { Moment } from "../../src/score/address.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import type { BarRange } from "../../src/score/edit.ts";
import { beatsOf, frameTicks, meterOffset } from "../../src/score/meter.ts";
import type { Score } from "../../src/score/score.ts";

/** Until its own width is known, px. */
const USUAL_WIDTH = 1000;

/** A beat's figure wants so much room; with the bar's number beside it so much, px. */
const FIGURE = 24;
const FIGURE_AND_BAR = 68;

const ROW = 24;
const TOP = 10;
const FOOT = 26;

/** From where in the loop on which version was heard, ticks. */
interface Heard {
  readonly from: number;
  readonly version: number;
}

/**
 * The loop as one unbroken line that steps from version to version on a beat, what was asked for dotted ahead. It is drawn as it is heard: with
 * every moment its path grows, past Lit.
 */
export class AuditionRibbon extends LitElement {
  static override properties = {
    score: { attribute: false },
    range: { attribute: false },
    names: { attribute: false },
    width: { state: true },
  };

  declare score: Score;
  /** The bars of the loop. */
  declare range: BarRange;
  /** The versions, the first on top. */
  declare names: readonly string[];
  /** How wide the loop is drawn, px: its words are as large on a phone as anywhere. */
  declare private width: number;
  #heard: Heard[] = [];
  #asked: Heard | null = null;
  /** What was asked for comes only once the loop has gone round. */
  #nextRound = false;
  #at = 0;

  static override styles = css`
    :host {
      display: grid;
      grid-template-columns: minmax(140px, 200px) minmax(0, 1fr);
      gap: 0 8px;
      background: var(--paper);
      border-radius: var(--r-sheet);
      box-shadow: var(--shadow-sheet);
      padding: 12px 18px 8px;
    }
    ol {
      list-style: none;
      margin: 0;
      padding: 10px 0 0;
      font: 400 15px/24px var(--serif);
    }
    li {
      block-size: 24px;
      overflow: hidden;
      white-space: nowrap;
      text-overflow: ellipsis;
    }
    li span {
      font: 400 13px/24px var(--sans);
      color: var(--ink-2);
      margin-inline-end: 8px;
    }
    svg {
      inline-size: 100%;
      display: block;
    }
    .rule {
      stroke: var(--rule-soft);
      stroke-width: 1;
      vector-effect: non-scaling-stroke;
    }
    .rule.bar {
      stroke: var(--rule);
    }
    .row {
      stroke: var(--line);
      stroke-width: 1;
      stroke-dasharray: 1 5;
    }
    .heard {
      fill: none;
      stroke: var(--ink);
      stroke-width: 6;
    }
    .asked {
      fill: none;
      stroke: var(--ink-2);
      stroke-width: 2.5;
      stroke-dasharray: 2 5;
    }
    .now {
      stroke: var(--steel);
      stroke-width: 2;
    }
    text {
      font: 400 12px/1 var(--sans);
      fill: var(--ink-2);
    }
    @media (max-width: 599px) {
      :host {
        grid-template-columns: minmax(0, 1fr);
      }
      ol {
        display: none;
      }
    }
    @media (forced-colors: active) {
      .heard {
        stroke: CanvasText;
      }
      .now {
        stroke: Highlight;
      }
    }
  `;

  readonly #sized = new ResizeObserver(([entry]) => {
    const width = Math.round(entry?.contentRect.width ?? 0);
    if (width > 0) this.width = width;
  });

  constructor() {
    super();
    this.width = USUAL_WIDTH;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    const drawing = this.renderRoot.querySelector("svg");
    if (drawing !== null) this.#sized.observe(drawing);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#sized.disconnect();
  }

  override render() {
    const beats = this.#beats();
    const height = TOP + ROW * this.names.length;
    return html`<ol aria-hidden="true">${this.names.map((name, index) => html`<li><span>${index + 1}</span>${name}</li>`)}</ol>
      <svg height=${height + FOOT} preserveAspectRatio="none" viewBox="0 0 ${this.width} ${height + FOOT}" aria-hidden="true">
        ${this.names.map((_, index) => svg`<path class="row" d=${`M0 ${this.#y(index)}H${this.width}`}></path>`)}
        ${beats.map(
          ({ x, label, isBar }) => svg`<path class=${isBar ? "rule bar" : "rule"} d=${`M${x} ${TOP - 6}V${height}`}></path>
          <text x=${x + 4} y=${height + 16}>${label}</text>`,
        )}
        <path class="asked"></path><path class="heard"></path><path class="now"></path>
      </svg>`;
  }

  protected override firstUpdated(): void {
    this.#sized.observe(this.renderRoot.querySelector("svg") as SVGSVGElement);
  }

  protected override updated(): void {
    this.#draw();
  }

  /** A version begins to be heard, from the loop's start. */
  begin(version: number): void {
    this.#heard = [{ from: 0, version }];
    this.#asked = null;
    this.#at = 0;
    this.#draw();
  }

  /** A version is asked for; heard from a moment on, which may lie in the next round. */
  ask(version: number, at: Moment | null): void {
    const from = at === null ? this.#at : this.#placeOf(at);
    this.#asked = { from, version };
    this.#nextRound = from < this.#at;
    this.#draw();
  }

  /** Playing has come to a moment. The version that is heard from now on, where it is another one; else null. */
  moved(moment: Moment): number | null {
    const before = this.#at;
    this.#at = this.#placeOf(moment);
    if (this.#at < before) {
      this.#heard = [{ from: 0, version: this.#heard.at(-1)?.version ?? 0 }];
      this.#nextRound = false;
    }
    const asked = this.#asked;
    const isDue = asked !== null && !this.#nextRound && this.#at >= asked.from;
    if (isDue) {
      this.#heard.push(asked);
      this.#asked = null;
    }
    this.#draw();
    return isDue ? asked.version : null;
  }

  get #ticks(): number {
    const { first, last } = this.range;
    return this.score.frames.slice(first, last + 1).reduce((sum, frame) => sum + frameTicks(frame), 0);
  }

  #placeOf({ bar, at }: Moment): number {
    return this.score.frames.slice(this.range.first, bar).reduce((sum, frame) => sum + frameTicks(frame), 0) + at;
  }

  #x(ticks: number): number {
    return (ticks / Math.max(1, this.#ticks)) * this.width;
  }

  #y(version: number): number {
    return TOP + ROW * version + ROW / 2;
  }

  #beats(): readonly { readonly x: number; readonly label: string; readonly isBar: boolean }[] {
    let start = 0;
    return this.score.frames.slice(this.range.first, this.range.last + 1).flatMap((frame, index) => {
      let beat = -meterOffset(frame);
      const here = beatsOf(frame.meter).flatMap((length, number) => {
        const at = beat;
        beat += length;
        if (at < 0) return [];
        const isBar = at === 0;
        const bar = `bar ${barNumber(this.score, this.range.first + index)}`;
        const room = this.#x(length);
        const figure = room < FIGURE ? "" : String(number + 1);
        return [{ x: this.#x(start + at), label: !isBar ? figure : room < FIGURE_AND_BAR ? bar : `${figure}  ${bar}`, isBar }];
      });
      start += frameTicks(frame);
      return here;
    });
  }

  #draw(): void {
    const path = (name: string) => this.renderRoot.querySelector(`.${name}`);
    const [heard, asked, now] = [path("heard"), path("asked"), path("now")];
    if (!heard || !asked || !now) return;
    const x = (ticks: number) => this.#x(ticks).toFixed(1);
    const steps = this.#heard.map(
      ({ from, version }, index) => `${index === 0 ? "M" : "H"}${x(from)}${index === 0 ? " " : "V"}${this.#y(version)}`,
    );
    heard.setAttribute("d", this.#heard.length === 0 ? "" : `${steps.join("")}H${x(this.#at)}`);
    now.setAttribute("d", `M${x(this.#at)} 0V${TOP + ROW * this.names.length + 6}`);
    const current = this.#heard.at(-1);
    const ahead =
      this.#asked === null || current === undefined
        ? ""
        : `M${x(this.#at)} ${this.#y(current.version)}H${x(Math.max(this.#at, this.#asked.from))}V${this.#y(this.#asked.version)}H${this.width}`;
    asked.setAttribute("d", ahead);
  }
}

customElements.define("audition-ribbon", AuditionRibbon);

declare global {
  interface HTMLElementTagNameMap {
    "audition-ribbon": AuditionRibbon;
  }
}
