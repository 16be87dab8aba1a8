import { html, LitElement } from "lit";
import type { BarRange } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";
import { editsAsked } from "../shared/edits-asked.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "./bar-scope.ts";
import { closePanel, panel } from "./panel-styles.ts";
import { COUNTED_VALUES } from "./tempo-words.ts";

/** The tempo of some bars. */
export class TempoPanel extends LitElement {
  static override properties = { score: { attribute: false }, chosen: { attribute: false } };

  declare score: Score;
  declare chosen: BarRange;

  static override styles = [controls, focusRing, panel];

  override render() {
    const tempo = this.score.frames[this.chosen.first]?.tempo;
    if (tempo === undefined) return null;
    return html`<form @submit=${this.#set}>
      <div class="row">
        <label class="field">To the minute
          <input name="perMinute" type="number" min="20" max="300" step="0.5" required .value=${String(tempo.perMinute)} />
        </label>
        <label class="field">Counted in
          <select name="beat">
            ${COUNTED_VALUES.map(({ beat, words }) => html`<option value=${beat} ?selected=${beat === tempo.beat}>${words}</option>`)}
          </select>
        </label>
      </div>
      <bar-scope .score=${this.score} .chosen=${this.chosen} first="song"></bar-scope>
      <div class="acts"><button class="btn main" type="submit">Set the tempo</button></div>
    </form>`;
  }

  readonly #set = (event: SubmitEvent): void => {
    event.preventDefault();
    const fields = new FormData(event.target as HTMLFormElement);
    const scope = this.renderRoot.querySelector("bar-scope");
    if (scope === null) return;
    const tempo = { beat: ticks(Number(fields.get("beat"))), perMinute: bpm(Number(fields.get("perMinute"))) };
    this.dispatchEvent(editsAsked("the tempo", { kind: "tempo", range: scope.range, tempo }));
    closePanel(this);
  };
}

customElements.define("tempo-panel", TempoPanel);
