import { html, LitElement } from "lit";
import { WARMING } from "../../src/pipes/advice.ts";
import { warmthSentence } from "../../src/pipes/air-temperature.ts";
import { isLowA, LOW_A_REACH } from "../../src/pipes/low-a.ts";
import { usualLowAName } from "../../src/pipes/low-a-name.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { lowASentence } from "../../src/pipes/pitch-sentences.ts";
import { withLowA, withName } from "../../src/pipes/setup-changes.ts";
import { setupFault } from "../../src/pipes/setup-fault.ts";
import { bandAToMatch, lowAFromTuner, otherWay } from "../../src/pipes/tempering.ts";
import type { ConcertPitch } from "../../src/pitch/concert-pitch.ts";
import { shownBandA } from "../../src/pitch/reference-pitch.ts";
import { pitchClassShown, shownPitch } from "../../src/pitch/spelling.ts";
import { type Hertz, hertz } from "../../src/units/hertz.ts";
import { rounded, shownCents, shownHertz, shownNumber } from "../../src/units/shown.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { panel } from "./panel-styles.ts";
import { setupChanged } from "./setup-events.ts";
import { setupPanel } from "./setup-styles.ts";

/** A pitch that was typed and cannot be had under the name low A has. */
interface Refused {
  readonly words: string;
  /** The setup it would be under its usual name, offered; null where no name helps. */
  readonly offer: PipeSetup | null;
}

/**
 * What low A truly sounds: typed in hertz, or as the setting of a tuner that reads it as in tune. Says what that means for the band, and
 * offers, never takes, another name.
 *
 * @fires setup-changed
 */
export class LowAPanel extends LitElement {
  static override properties = { setup: { attribute: false }, bandA: { attribute: false }, refused: { state: true } };

  declare setup: PipeSetup;
  declare bandA: Hertz;
  declare private refused: Refused | null;

  constructor() {
    super();
    this.refused = null;
  }

  static override styles = [controls, focusRing, panel, setupPanel];

  override render() {
    const { setup, bandA } = this;
    const name = pitchClassShown(setup.lowAIs);
    return html`<form @submit=${this.#setHertz}>
        <div class="row">
          <label class="field">Low A, in hertz
            <input class="number" type="number" name="hertz" min=${LOW_A_REACH.lowest} max=${LOW_A_REACH.highest} step="any" required .value=${String(rounded(setup.lowA, 2))} />
          </label>
          <button class="btn" type="submit">Set</button>
        </div>
      </form>
      <form @submit=${this.#setTuner}>
        <div class="row">
          <label class="field">or the tuner’s A when it reads ${name}
            <input class="number" type="number" name="tuner" min="200" max="900" step="any" required .value=${String(rounded(bandAToMatch(setup), 2))} />
          </label>
          <button class="btn" type="submit">Set</button>
        </div>
      </form>
      <p class="refusal" role="status">${this.refused?.words ?? ""}</p>
      ${this.refused?.offer ? this.#offer(this.refused.offer) : null}
      <p class="fact">${lowASentence(setup, bandA)}</p>
      ${this.#otherWay()} ${this.#usualName()}
      <p class="say">${WARMING.text} <span class="source">${WARMING.source}</span></p>
      <p class="say">${warmthSentence(setup.lowA)} <span class="source">Derived for 20 °C.</span></p>`;
  }

  #otherWay() {
    const other = otherWay(this.setup, this.bandA);
    if (!other) return null;
    return html`<p class="fact sans">The other way: ${shownPitch(other.concert)} ${shownCents(other.cents, 1)} cents, or a band at ${shownBandA(other.bandAToMatch, 2)}.</p>
      <div class="offers">${this.#rename(other.concert)}</div>`;
  }

  /** Offers the name that this pitch usually has, where that is neither the name it has nor the other way. */
  #usualName() {
    const { setup } = this;
    const usual = usualLowAName(setup.lowA);
    if (usual === setup.lowAIs || usual === otherWay(setup, this.bandA)?.concert) return null;
    return html`<div class="offers">${this.#rename(usual)}</div>`;
  }

  #rename(name: ConcertPitch) {
    return html`<button class="link" type="button" @click=${() => this.dispatchEvent(setupChanged(withName(this.setup, name)))}>Call it ${pitchClassShown(name)}</button>`;
  }

  #offer(setup: PipeSetup) {
    const take = () => {
      this.refused = null;
      this.dispatchEvent(setupChanged(setup));
    };
    return html`<div class="offers"><button class="link" type="button" @click=${take}>Set ${shownHertz(setup.lowA, 2)}, called ${pitchClassShown(setup.lowAIs)}</button></div>`;
  }

  readonly #setHertz = (event: SubmitEvent): void => {
    event.preventDefault();
    this.#set(numberIn(event, "hertz"));
  };

  readonly #setTuner = (event: SubmitEvent): void => {
    event.preventDefault();
    this.#set(lowAFromTuner(hertz(numberIn(event, "tuner")), this.setup.lowAIs));
  };

  #set(value: number): void {
    if (!isLowA(value)) {
      const words = `Low A lies between ${LOW_A_REACH.lowest} and ${LOW_A_REACH.highest} Hz; ${shownNumber(value, 1)} is outside.`;
      this.refused = { words, offer: null };
      return;
    }
    const changed = withLowA(this.setup, hertz(value));
    if (setupFault(changed)?.where === "lowAIs") {
      const words = `${shownHertz(changed.lowA)} is more than a whole tone from ${pitchClassShown(this.setup.lowAIs)}, as you call low A now.`;
      this.refused = { words, offer: withName(changed, usualLowAName(changed.lowA)) };
      return;
    }
    this.refused = null;
    this.dispatchEvent(setupChanged(changed));
  }
}

/** The number in a field of the form that was sent; the field itself holds it to its bounds. */
function numberIn(event: SubmitEvent, name: string): number {
  return Number(new FormData(event.target as HTMLFormElement).get(name));
}

customElements.define("low-a-panel", LowAPanel);
