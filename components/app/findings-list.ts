import { css, html, LitElement } from "lit";
import { barNumber } from "../../src/score/bar-number.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Score } from "../../src/score/score.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "./crossings-fold.ts";
import type { CureTakenEvent, FindingChosenEvent } from "./finding-events.ts";

/** The findings of a sketch that nobody has looked through yet: nothing is said of it, not even that there is nothing. */
export const UNCHECKED: readonly Finding[] = [];

/** How many are shown before "All of them" is pressed; the foot of the page has room for so many. */
const SHOWN = 3;

const COUNTS = [
  "Nothing",
  "One thing",
  "Two things",
  "Three things",
  "Four things",
  "Five things",
  "Six things",
  "Seven things",
  "Eight things",
  "Nine things",
];

/**
 * The findings as footnotes: a number in a ring, one sentence, one cure.
 *
 * @fires finding-chosen
 * @fires cure-taken
 */
export class FindingsList extends LitElement {
  static override properties = {
    findings: { attribute: false },
    crossings: { attribute: false },
    score: { attribute: false },
    chosen: { attribute: false },
    all: { state: true },
  };

  /** In the order of their numbers: the first is 1. */
  declare findings: readonly Finding[];
  /** Those that have no number. */
  declare crossings: readonly Finding[];
  declare score: Score;
  declare chosen: Finding | null;
  declare private all: boolean;

  constructor() {
    super();
    this.findings = [];
    this.crossings = [];
    this.chosen = null;
    this.all = false;
  }

  static override styles = [
    controls,
    focusRing,
    css`
      :host {
        display: block;
      }
      h2 {
        font: 600 15px/24px var(--serif);
      }
      ol {
        list-style: none;
        padding: 0;
        margin: 0;
        max-block-size: 240px;
        overflow: auto;
      }
      li {
        display: flex;
        gap: 11px;
        align-items: baseline;
        padding-block: 2px;
      }
      .ring {
        flex: none;
        font: 600 11px/13px var(--sans);
        inline-size: 15px;
        block-size: 15px;
        border: 1px solid var(--ink);
        border-radius: var(--r-round);
        text-align: center;
        padding: 0;
        color: var(--ink);
        background: none;
        cursor: pointer;
        position: relative;
        inset-block-start: -1px;
      }
      .ring.wide {
        inline-size: auto;
        min-inline-size: 15px;
        padding-inline: 3px;
      }
      /* The ring is small; what the finger hits is not. */
      .ring::after {
        content: "";
        position: absolute;
        inset: -12px;
      }
      .ring[aria-pressed="true"] {
        background: var(--ink);
        color: var(--paper);
      }
      .cures {
        display: inline-flex;
        flex-wrap: wrap;
        gap: 0 16px;
        margin-inline-start: 10px;
      }
      .cures .link {
        white-space: nowrap;
      }
      .nothing {
        color: var(--ink-2);
      }
      /* The page itself scrolls there, and a list that scrolls inside it would swallow the thumb. */
      @media (max-width: 599px) {
        ol {
          max-block-size: none;
        }
      }
    `,
  ];

  override render() {
    const shown = this.all ? this.findings : this.findings.slice(0, SHOWN);
    const rest = this.findings.length - shown.length;
    return html`
      <h2 id="head">${headOf(this.findings.length)}</h2>
      ${this.findings.length === 0 && this.findings !== UNCHECKED ? html`<p class="nothing">Nothing to look at.</p>` : null}
      <ol aria-labelledby="head">
        ${shown.map((finding, index) => this.#row(finding, index + 1))}
      </ol>
      ${
        rest > 0 || this.all
          ? html`<button class="link" type="button" @click=${this.#turn} ?hidden=${this.findings.length <= SHOWN}>
            ${this.all ? "Fewer" : `${rest} more`}
          </button>`
          : null
      }
      <crossings-fold .crossings=${this.crossings} .score=${this.score} .chosen=${this.chosen} @finding-chosen=${this.#pass} @cure-taken=${this.#pass}></crossings-fold>
    `;
  }

  /** News of the fold is news of the list: a page listens to one element. */
  readonly #pass = (event: Event): void => {
    const { detail } = event as CureTakenEvent | FindingChosenEvent;
    this.dispatchEvent(new CustomEvent(event.type, { detail }));
  };

  #row(finding: Finding, number: number) {
    const chosen = finding === this.chosen;
    return html`<li>
      <button
        type="button"
        class=${number > 9 ? "ring wide" : "ring"}
        aria-pressed=${chosen ? "true" : "false"}
        aria-label=${`Show finding ${number}`}
        @click=${() => this.#choose(finding)}
      >${number}</button>
      <span>Bar ${barNumber(this.score, finding.address.bar)}: ${asClause(finding.message)}<span class="cures">${finding.cures.map(
        (cure) =>
          html`<button class="link" type="button" @click=${() => this.#cure(cure.label, cure.edits)} aria-label=${`${cure.label}, finding ${number}`}>${cure.label}</button>`,
      )}</span></span>
    </li>`;
  }

  #choose(finding: Finding): void {
    this.dispatchEvent(new CustomEvent("finding-chosen", { detail: { finding } }) satisfies FindingChosenEvent);
  }

  #cure(label: string, edits: readonly Edit[]): void {
    this.dispatchEvent(new CustomEvent("cure-taken", { detail: { label, edits } }) satisfies CureTakenEvent);
  }

  readonly #turn = (): void => {
    this.all = !this.all;
  };
}

function headOf(count: number): string {
  if (count === 0) return "Findings";
  return `${COUNTS[count] ?? `${count} things`} to look at`;
}

/** Goes on after "Bar 16:" in lower case, unless the first word is a name that keeps its capital. */
function asClause(message: string): string {
  return /^(The|A|An|This|That|From|Two|Here|Nothing|No) /.test(message) ? message[0]?.toLowerCase() + message.slice(1) : message;
}

customElements.define("findings-list", FindingsList);

declare global {
  interface HTMLElementTagNameMap {
    "findings-list": FindingsList;
  }
}
