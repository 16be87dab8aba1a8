import { html, LitElement } from "lit";
import { whoCanFollow } from "../../src/ensemble/who-can-follow.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { lowASentence } from "../../src/pipes/pitch-sentences.ts";
import { bandAToMatch } from "../../src/pipes/tempering.ts";
import { HIGHEST_BAND_A, isBandA, LOWEST_BAND_A, shownBandA, USUAL_BAND_A } from "../../src/pitch/reference-pitch.ts";
import { type Hertz, hertz } from "../../src/units/hertz.ts";
import { rounded } from "../../src/units/shown.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { panel } from "./panel-styles.ts";
import { bandAChanged } from "./setup-events.ts";
import { setupPanel } from "./setup-styles.ts";

/**
 * What the band tunes its A4 to, and who can.
 *
 * @fires band-a-changed
 */
export class BandAPanel extends LitElement {
  static override properties = { setup: { attribute: false }, bandA: { attribute: false } };

  declare setup: PipeSetup;
  declare bandA: Hertz;

  static override styles = [controls, focusRing, panel, setupPanel];

  override render() {
    const { setup, bandA } = this;
    return html`<form @submit=${this.#set}>
        <div class="row">
          <label class="field">The band’s A, in hertz
            <input class="number" type="number" name="band" min=${LOWEST_BAND_A} max=${HIGHEST_BAND_A} step="any" required .value=${String(rounded(bandA, 2))} />
          </label>
          <button class="btn" type="submit">Set</button>
        </div>
      </form>
      <div class="offers">${this.#match()} ${bandA === USUAL_BAND_A ? null : this.#offer(USUAL_BAND_A, "A 440, as usual")}</div>
      <p class="fact">${lowASentence(setup, bandA)}</p>
      <p class="say">${whoCanFollow(bandA)} <span class="source">Common practice, from memory.</span></p>`;
  }

  #match() {
    const match = bandAToMatch(this.setup);
    const same = Math.abs(match - this.bandA) < 0.005;
    if (same) return null;
    if (isBandA(match)) return this.#offer(match, `${shownBandA(match)}, to meet the pipes`);
    return html`<p class="say">To meet the pipes the band would tune to ${shownBandA(match)}, which is out of reach.</p>`;
  }

  #offer(value: Hertz, words: string) {
    return html`<button class="link" type="button" @click=${() => this.dispatchEvent(bandAChanged(value))}>${words}</button>`;
  }

  readonly #set = (event: SubmitEvent): void => {
    event.preventDefault();
    const value = Number(new FormData(event.target as HTMLFormElement).get("band"));
    if (isBandA(value)) this.dispatchEvent(bandAChanged(hertz(value)));
  };
}

customElements.define("band-a-panel", BandAPanel);
