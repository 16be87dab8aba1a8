import { html, LitElement } from "lit";
import { CARVING_CAUTION, setupAdvice } from "../../src/pipes/advice.ts";
import { CHANTER_NAMES, type ChanterName, defaultSetup } from "../../src/pipes/default-setups.ts";
import { isSmallpipes, lowANamesNear } from "../../src/pipes/low-a.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { shiftedByOctaves, withChanter, withName } from "../../src/pipes/setup-changes.ts";
import { pitchClassShown, shownPitch, spokenPitch } from "../../src/pitch/spelling.ts";
import { shownHertz } from "../../src/units/shown.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { panel } from "./panel-styles.ts";
import { setupChanged } from "./setup-events.ts";
import { setupPanel } from "./setup-styles.ts";

/**
 * Which chanter is in the stock, what its low A is called, and in which octave it sounds. Naming is the piper's alone: nothing else
 * in the setup changes it.
 *
 * @fires setup-changed
 */
export class ChanterPanel extends LitElement {
  static override properties = { setup: { attribute: false } };

  declare setup: PipeSetup;

  static override styles = [controls, focusRing, panel, setupPanel];

  override render() {
    const { setup } = this;
    return html`<fieldset>
        <legend class="cap">Put a chanter in the stock</legend>
        <div class="choices">${CHANTER_NAMES.map((name) => this.#chanter(name))}</div>
      </fieldset>
      <fieldset>
        <legend class="cap">What you call low A, at ${shownHertz(setup.lowA)}</legend>
        <div class="choices">${this.#names.map((name) => this.#name(name))}</div>
      </fieldset>
      <label class="tick"
        ><input type="checkbox" .checked=${isSmallpipes(setup)} @change=${this.#shiftOctave} /> Sounds an octave lower, as smallpipes do</label
      >
      <label class="tick"><input type="checkbox" .checked=${setup.canRest} @change=${this.#setRest} /> The chanter can rest while the drones sound</label>
      ${[...setupAdvice(setup), CARVING_CAUTION].map(
        ({ text, source }) => html`<p class="say">${text} <span class="source">${source}</span></p>`,
      )}`;
  }

  /** The names on offer: those near low A, and the one it has, wherever that lies. */
  get #names() {
    const { lowA, lowAIs } = this.setup;
    const near = lowANamesNear(lowA);
    return near.includes(lowAIs) ? near : [...near, lowAIs];
  }

  #chanter(name: ChanterName) {
    const { lowA, lowAIs } = defaultSetup(name);
    return html`<button class="btn" type="button" @click=${() => this.dispatchEvent(setupChanged(withChanter(this.setup, name)))}
      >${pitchClassShown(lowAIs)}, ${shownHertz(lowA)}</button
    >`;
  }

  #name(name: PipeSetup["lowAIs"]) {
    return html`<label class="tick"
      ><input type="radio" name="name" aria-label=${spokenPitch(name)} .checked=${name === this.setup.lowAIs}
        @change=${() => this.dispatchEvent(setupChanged(withName(this.setup, name)))} /> ${shownPitch(name)}</label
    >`;
  }

  readonly #shiftOctave = (event: Event): void => {
    const down = (event.target as HTMLInputElement).checked;
    this.dispatchEvent(setupChanged(shiftedByOctaves(this.setup, down ? -1 : 1)));
  };

  readonly #setRest = (event: Event): void => {
    this.dispatchEvent(setupChanged({ ...this.setup, canRest: (event.target as HTMLInputElement).checked }));
  };
}

customElements.define("chanter-panel", ChanterPanel);
