import { css, html, LitElement } from "lit";
import { live } from "lit/directives/live.js";
import { NINE_NOTES, type PlainNote } from "../../src/pipes/chanter-note.ts";
import { noteName, spokenNote } from "../../src/pipes/note-names.ts";
import type { ChanterScale, PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { centsInScale, measuredFrom, SCALE_NAMES, SCALES } from "../../src/pipes/scales.ts";
import { withScale } from "../../src/pipes/setup-changes.ts";
import { setupFault } from "../../src/pipes/setup-fault.ts";
import { tunerReading, withTunerReading } from "../../src/pipes/tuner-cents.ts";
import { cents } from "../../src/units/cents.ts";
import { rounded, shownCents, shownNumber } from "../../src/units/shown.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { panel } from "./panel-styles.ts";
import { setupChanged } from "./setup-events.ts";
import { setupPanel } from "./setup-styles.ts";

/** The nine as the grid has them: high A at the top. */
const FROM_THE_TOP = NINE_NOTES.toReversed();

/**
 * How the chanter is tuned: one of the published scales with its source, equal, or nine values of the piper's own, typed as a tuner
 * reads them when low A reads 0.
 *
 * @fires setup-changed
 */
export class ScalePanel extends LitElement {
  static override properties = { setup: { attribute: false }, refusal: { state: true } };

  declare setup: PipeSetup;
  declare private refusal: string;

  constructor() {
    super();
    this.refusal = "";
  }

  static override styles = [
    controls,
    focusRing,
    panel,
    setupPanel,
    css`
      table {
        border-collapse: collapse;
        font: 400 14px/20px var(--sans);
        font-variant-numeric: tabular-nums lining-nums;
        justify-self: start;
      }
      th,
      td {
        padding: 2px 12px 2px 0;
        text-align: end;
        font-weight: 400;
      }
      thead th {
        font-size: 13px;
        color: var(--ink-3);
      }
      th:first-child {
        text-align: start;
      }
      tbody th {
        font: 600 15px/20px var(--serif);
      }
      td input {
        inline-size: 9ch;
        text-align: end;
      }
    `,
  ];

  override render() {
    const { scale } = this.setup;
    const source = scale.kind === "measured" ? "Your own measurements." : SCALES[scale.name].source;
    return html`<fieldset>
        <legend class="cap">The chanter’s scale</legend>
        <div class="choices">
          ${SCALE_NAMES.map((name) => this.#choice(SCALES[name].name, { kind: "published", name }, scale.kind === "published" && scale.name === name))}
          ${this.#choice("measured by you", measuredFrom(scale), scale.kind === "measured")}
        </div>
      </fieldset>
      <table>
        <thead>
          <tr>
            <th scope="col">Note</th>
            <th scope="col">tuner, low A at 0</th>
            <th scope="col">over low A</th>
          </tr>
        </thead>
        <tbody>
          ${FROM_THE_TOP.map((note) => this.#row(note))}
        </tbody>
      </table>
      <p class="refusal" role="status">${this.refusal}</p>
      <p class="source">${source}</p>`;
  }

  #choice(words: string, scale: ChanterScale, chosen: boolean) {
    return html`<label class="tick"
      ><input type="radio" name="scale" .checked=${chosen} @change=${() => this.#choose(scale)} /> ${words}</label
    >`;
  }

  #row(note: PlainNote) {
    const { scale } = this.setup;
    const over = centsInScale(scale, note);
    const reading = tunerReading(note, over);
    const typed = scale.kind === "measured" && note !== "low-a";
    return html`<tr>
      <th scope="row">${noteName(note)}</th>
      <td>${
        typed
          ? html`<input type="number" step="any" aria-label="${spokenNote(note)}, cents on the tuner" .value=${live(String(rounded(reading, 1)))}
              @change=${(event: Event) => this.#measure(note, (event.target as HTMLInputElement).valueAsNumber)} />`
          : shownCents(reading, 1)
      }</td>
      <td>${shownNumber(over, 1)}</td>
    </tr>`;
  }

  #choose(scale: ChanterScale): void {
    this.refusal = "";
    this.dispatchEvent(setupChanged(withScale(this.setup, scale)));
  }

  #measure(note: PlainNote, reading: number): void {
    if (!Number.isFinite(reading)) {
      this.refusal = `Type how many cents the tuner reads for ${noteName(note)}.`;
      return;
    }
    const changed = withScale(this.setup, withTunerReading(this.setup.scale, note, cents(reading)));
    const fault = setupFault(changed);
    if (fault) {
      this.refusal = `${shownCents(cents(reading), 1)} would put ${noteName(note)} out of order, or out of the chanter’s reach. It was left as it was.`;
      return;
    }
    this.#choose(changed.scale);
  }
}

customElements.define("scale-panel", ScalePanel);
