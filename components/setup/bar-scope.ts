import { css, html, LitElement, type PropertyValues } from "lit";
import { barNumber } from "../../src/score/bar-number.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { sectionAround } from "../../src/score/section-around.ts";
import { controls, focusRing } from "../shared/styles.ts";

type Scope = "bars" | "section" | "song";

/** Which bars a setting is for: the chosen ones, their section, or the whole song. `range` is the answer. */
export class BarScope extends LitElement {
  static override properties = {
    score: { attribute: false },
    chosen: { attribute: false },
    first: { type: String },
    scope: { state: true },
  };

  declare score: Score;
  /** The bars that are chosen, or the one the hand is at. */
  declare chosen: BarRange;
  /** Which of the three is ticked to begin with. */
  declare first: Scope;
  declare private scope: Scope;

  constructor() {
    super();
    this.first = "section";
    this.scope = "section";
  }

  static override styles = [
    controls,
    focusRing,
    css`
      fieldset {
        border: 0;
        margin: 0;
        padding: 0;
        display: grid;
        gap: 4px;
      }
      legend {
        padding: 0;
        margin-block-end: 4px;
      }
      label {
        display: flex;
        gap: 8px;
        align-items: center;
        min-block-size: 28px;
      }
    `,
  ];

  protected override willUpdate(changed: PropertyValues): void {
    if (changed.has("first")) this.scope = this.first;
  }

  /** The bars that were asked for. */
  get range(): BarRange {
    if (this.scope === "song") return { first: 0, last: this.score.frames.length - 1 };
    if (this.scope === "section") return sectionAround(this.score.frames, this.chosen.first).range;
    return this.chosen;
  }

  override render() {
    const section = sectionAround(this.score.frames, this.chosen.first);
    return html`<fieldset>
      <legend class="cap">For</legend>
      ${this.#choice("bars", this.#inWords(this.chosen))}
      ${this.#choice("section", `${section.name === "" ? "this stretch" : section.name}, ${this.#inWords(section.range)}`)}
      ${this.#choice("song", "the whole song")}
    </fieldset>`;
  }

  #choice(scope: Scope, words: string) {
    return html`<label><input type="radio" name="scope" .checked=${this.scope === scope} @change=${() => this.#choose(scope)} /> ${words}</label>`;
  }

  #choose(scope: Scope): void {
    this.scope = scope;
  }

  #inWords(range: BarRange): string {
    const first = barNumber(this.score, range.first);
    const last = barNumber(this.score, range.last);
    return first === last ? `bar ${first}` : `bars ${first} to ${last}`;
  }
}

customElements.define("bar-scope", BarScope);

declare global {
  interface HTMLElementTagNameMap {
    "bar-scope": BarScope;
  }
}
