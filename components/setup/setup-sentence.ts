import { css, html, LitElement } from "lit";
import { fingeringWords } from "../../src/pipes/fingering-words.ts";
import { keysInReach } from "../../src/pipes/keys-in-reach.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { chanterWords, crossFingeringWords, droneWords, scaleWords } from "../../src/pipes/setup-words.ts";
import type { Key } from "../../src/pitch/key.ts";
import { shownBandA } from "../../src/pitch/reference-pitch.ts";
import type { Hertz } from "../../src/units/hertz.ts";
import { shownHertz } from "../../src/units/shown.ts";
import "../shared/filled-blank.ts";
import { panelsLoaded } from "./load-panels.ts";
import { type BandAChangedEvent, bandAChanged, type SetupChangedEvent, setupChanged } from "./setup-events.ts";

/**
 * The pipe setup and the band's pitch as prose: what can be changed stands in it underlined, and opens where it stands.
 *
 * @fires setup-changed
 * @fires band-a-changed
 */
export class SetupSentence extends LitElement {
  static override properties = { setup: { attribute: false }, bandA: { attribute: false }, key: { attribute: false } };

  declare setup: PipeSetup;
  declare bandA: Hertz;
  /** The concert key in force, which says what the leading tone is; null where no music is at hand. */
  declare key: Key | null;

  constructor() {
    super();
    this.key = null;
    this.addEventListener("pointerenter", panelsLoaded);
    this.addEventListener("focusin", panelsLoaded);
  }

  static override styles = css`
    :host {
      display: block;
      font: 400 17px/26px var(--serif);
      color: var(--ink);
    }
  `;

  override render() {
    const { setup, bandA, key } = this;
    const { subject, rest } = crossFingeringWords(setup, key);
    const keys = keysInReach(setup).length;
    return html`<filled-blank label="Chanter" words=${chanterWords(setup)}
        ><chanter-panel .setup=${setup} @setup-changed=${this.#passSetup}></chanter-panel></filled-blank
      >, low A at <filled-blank label="Low A" words=${shownHertz(setup.lowA)}
        ><low-a-panel .setup=${setup} .bandA=${bandA} @setup-changed=${this.#passSetup}></low-a-panel></filled-blank
      >, band at <filled-blank label="Band" words=${shownBandA(bandA)}
        ><band-a-panel .setup=${setup} .bandA=${bandA} @band-a-changed=${this.#passBandA}></band-a-panel></filled-blank
      >. Scale <filled-blank label="Scale" words=${scaleWords(setup)}
        ><scale-panel .setup=${setup} @setup-changed=${this.#passSetup}></scale-panel></filled-blank
      >. <filled-blank label="Cross-fingerings" words=${subject}
        ><cross-fingering-panel .setup=${setup} .key=${key} @setup-changed=${this.#passSetup}></cross-fingering-panel></filled-blank
      >${rest}. Fingered <filled-blank label="Fingerings" words=${fingeringWords(setup)}
        ><fingering-panel .setup=${setup} @setup-changed=${this.#passSetup}></fingering-panel></filled-blank
      >. Drones: <filled-blank label="Drones" words=${droneWords(setup)}
        ><drones-panel .setup=${setup} @setup-changed=${this.#passSetup}></drones-panel></filled-blank
      >. <filled-blank label="Keys in reach" words="${keys} keys"><keys-in-reach .setup=${setup}></keys-in-reach></filled-blank> in reach.`;
  }

  // The panels' news does not bubble: this element is the only one a page listens to.
  readonly #passSetup = (event: SetupChangedEvent): void => {
    this.dispatchEvent(setupChanged(event.detail.setup));
  };

  readonly #passBandA = (event: BandAChangedEvent): void => {
    this.dispatchEvent(bandAChanged(event.detail.bandA));
  };
}

customElements.define("setup-sentence", SetupSentence);

declare global {
  interface HTMLElementTagNameMap {
    "setup-sentence": SetupSentence;
  }
}
