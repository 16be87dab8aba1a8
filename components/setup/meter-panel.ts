import { html, LitElement } from "lit";
import type { BarRange, Edit } from "../../src/score/edit.ts";
import type { BeatUnit } from "../../src/score/frame.ts";
import { meterTicks } from "../../src/score/meter.ts";
import type { Score } from "../../src/score/score.ts";
import { TICKS_PER_QUARTER, ticks } from "../../src/units/ticks.ts";
import { editsAsked } from "../shared/edits-asked.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "./bar-scope.ts";
import { closePanel, panel } from "./panel-styles.ts";

const UNITS: readonly BeatUnit[] = [2, 4, 8, 16];
const EIGHTH = TICKS_PER_QUARTER / 2;

/** The meter of some bars, and whether the song begins with a pickup. */
export class MeterPanel extends LitElement {
  static override properties = { score: { attribute: false }, chosen: { attribute: false } };

  declare score: Score;
  declare chosen: BarRange;

  static override styles = [controls, focusRing, panel];

  override render() {
    const meter = this.score.frames[this.chosen.first]?.meter ?? { beats: 4, unit: 4 };
    return html`<form @submit=${this.#set}>
      <div class="row">
        <label class="field">Beats
          <input name="beats" type="number" min="1" max="24" step="1" required .value=${String(meter.beats)} />
        </label>
        <label class="field">of
          <select name="unit">
            ${UNITS.map((unit) => html`<option value=${unit} ?selected=${unit === meter.unit}>${unit}</option>`)}
          </select>
        </label>
      </div>
      <bar-scope .score=${this.score} .chosen=${this.chosen} first="song"></bar-scope>
      <div class="acts"><button class="btn main" type="submit">Set the meter</button></div>
      <label class="field">The song begins with
        <select name="pickup" @change=${this.#setPickup}>
          ${this.#pickups()}
        </select>
      </label>
    </form>`;
  }

  #pickups() {
    const first = this.score.frames[0];
    if (first === undefined) return null;
    const choices = [];
    for (let length = EIGHTH; length < meterTicks(first.meter); length += EIGHTH) choices.push(length);
    const now = first.short ?? 0;
    if (now > 0 && !choices.includes(now)) choices.push(now);
    return [
      html`<option value="0" ?selected=${now === 0}>a whole bar</option>`,
      ...choices.map((length) => html`<option value=${length} ?selected=${length === now}>a pickup of ${quarters(length)}</option>`),
    ];
  }

  readonly #set = (event: SubmitEvent): void => {
    event.preventDefault();
    const fields = new FormData(event.target as HTMLFormElement);
    const scope = this.renderRoot.querySelector("bar-scope");
    if (scope === null) return;
    const meter = { beats: Number(fields.get("beats")), unit: Number(fields.get("unit")) as BeatUnit };
    this.#ask("the meter", { kind: "meter", range: scope.range, meter });
  };

  readonly #setPickup = (event: Event): void => {
    const length = Number((event.target as HTMLSelectElement).value);
    this.#ask("the pickup", { kind: "pickup", ticks: length === 0 ? null : ticks(length) });
  };

  #ask(label: string, edit: Edit): void {
    this.dispatchEvent(editsAsked(label, edit));
    closePanel(this);
  }
}

/** `half a beat`, `1 beat`, `1½ beats`, in quarters. */
function quarters(length: number): string {
  const count = length / TICKS_PER_QUARTER;
  const whole = Math.floor(count);
  const text = `${whole === 0 ? "" : whole}${count - whole === 0.5 ? "½" : count - whole === 0 ? "" : (count - whole).toFixed(2).slice(1)}`;
  return `${text} ${count > 1 ? "quarters" : "quarter"}`;
}

customElements.define("meter-panel", MeterPanel);
