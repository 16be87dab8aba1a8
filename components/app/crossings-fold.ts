import { css, html, LitElement } from "lit";
import { guard } from "lit/directives/guard.js";
import { barNumber, hasPickup } from "../../src/score/bar-number.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Score } from "../../src/score/score.ts";
import { controls, focusRing } from "../shared/styles.ts";
import type { CureTakenEvent, FindingChosenEvent } from "./finding-events.ts";

/** So many of a step's bars are named; who hears the first few knows where to listen. */
const SHOWN_BARS = 40;

/** One kind of step, wherever it is made. */
interface Step {
  readonly message: string;
  readonly findings: readonly Finding[];
}

/**
 * The finger changes on which another note can sound, folded away: every tune has them, most are played clean, and they must not hide what is
 * wrong. Open, each kind of step stands once, the commonest first, with all its bars.
 *
 * @fires finding-chosen
 * @fires cure-taken
 */
export class CrossingsFold extends LitElement {
  static override properties = {
    crossings: { attribute: false },
    score: { attribute: false },
    chosen: { attribute: false },
    open: { state: true },
  };

  declare crossings: readonly Finding[];
  declare score: Score;
  declare chosen: Finding | null;
  /** Only what is open is written: a long sketch has thousands. */
  declare private open: boolean;

  constructor() {
    super();
    this.crossings = [];
    this.chosen = null;
    this.open = false;
  }

  static override styles = [
    controls,
    focusRing,
    css`
      :host {
        display: block;
      }
      summary {
        font: 400 15px/24px var(--serif);
        color: var(--ink-2);
        cursor: pointer;
      }
      ol {
        list-style: none;
        margin: 0;
        padding: 0;
        max-block-size: 240px;
        overflow: auto;
      }
      li {
        padding-block: 4px;
      }
      .bars {
        display: inline-flex;
        flex-wrap: wrap;
        gap: 0 10px;
        margin-inline-start: 10px;
        font: 400 13px/20px var(--sans);
      }
      [aria-pressed="true"] {
        font-weight: 600;
      }
      .cures {
        display: inline-flex;
        flex-wrap: wrap;
        gap: 0 16px;
        margin-inline-start: 10px;
      }
      @media (max-width: 599px), (pointer: coarse) {
        summary {
          padding-block: 10px;
        }
        .bars button {
          min-inline-size: 44px;
        }
      }
    `,
  ];

  override render() {
    const count = this.crossings.length;
    if (count === 0) return null;
    return html`<details @toggle=${this.#toggled}>
      <summary>${count === 1 ? "One finger change" : `${count} finger changes`} on which another note can sound</summary>
      <ol>${this.open ? guard([this.crossings, this.chosen, hasPickup(this.score)], () => stepsOf(this.crossings).map((step) => this.#step(step))) : null}</ol>
    </details>`;
  }

  readonly #toggled = (event: Event): void => {
    this.open = (event.target as HTMLDetailsElement).open;
  };

  #step({ message, findings }: Step) {
    const bars = new Map(findings.map((finding) => [finding.address.bar, finding]).reverse() as [number, Finding][]);
    const places = [...bars.values()].reverse();
    const more = places.length - SHOWN_BARS;
    return html`<li>${message}<span class="bars">${places.slice(0, SHOWN_BARS).map((finding) => {
      const number = barNumber(this.score, finding.address.bar);
      const isChosen = finding === this.chosen ? "true" : "false";
      return html`<button class="link" type="button" aria-pressed=${isChosen} @click=${() => this.#choose(finding)}>bar ${number}</button>`;
    })}${more > 0 ? html`<span>and ${more} more</span>` : null}</span><span class="cures">${curesOf(findings).map(
      ({ label, edits }) => html`<button class="link" type="button" @click=${() => this.#cure(label, edits)}>${label}</button>`,
    )}</span></li>`;
  }

  #choose(finding: Finding): void {
    this.dispatchEvent(new CustomEvent("finding-chosen", { detail: { finding } }) satisfies FindingChosenEvent);
  }

  #cure(label: string, edits: readonly Edit[]): void {
    this.dispatchEvent(new CustomEvent("cure-taken", { detail: { label, edits } }) satisfies CureTakenEvent);
  }
}

/** Alike steps together, the commonest first; those equally common as they come in the music. */
function stepsOf(crossings: readonly Finding[]): readonly Step[] {
  const steps = new Map<string, Finding[]>();
  for (const finding of crossings) {
    const alike = steps.get(finding.message);
    if (alike === undefined) steps.set(finding.message, [finding]);
    else alike.push(finding);
  }
  return [...steps].map(([message, findings]) => ({ message, findings })).sort((one, other) => other.findings.length - one.findings.length);
}

/** The cures that every one of them has, taken everywhere at once; a change of the setup is one change however often it helps. */
function curesOf(findings: readonly Finding[]): Finding["cures"] {
  const [first] = findings;
  const shared = (first?.cures ?? []).filter(({ label }) => findings.every(({ cures }) => cures.some((cure) => cure.label === label)));
  const everywhere = findings.length > 1 ? ", everywhere" : "";
  return shared.map(({ label, edits }) => {
    if (edits.some(({ kind }) => kind === "setup")) return { label, edits };
    const all = findings.flatMap(({ cures }) => cures.find((cure) => cure.label === label)?.edits ?? []);
    return { label: `${label}${everywhere}`, edits: all };
  });
}

customElements.define("crossings-fold", CrossingsFold);

declare global {
  interface HTMLElementTagNameMap {
    "crossings-fold": CrossingsFold;
  }
}
