import { css, html, LitElement } from "lit";
import { live } from "lit/directives/live.js";
import { setupAdvice } from "../../src/pipes/advice.ts";
import { droneConcertPitch, droneHertz } from "../../src/pipes/drones.ts";
import type { Drone, PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { withBaritone, withDrone, withoutDrone } from "../../src/pipes/setup-changes.ts";
import { setupFault } from "../../src/pipes/setup-fault.ts";
import { shownPitch } from "../../src/pitch/spelling.ts";
import { shownHertz } from "../../src/units/shown.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { panel } from "./panel-styles.ts";
import { setupChanged } from "./setup-events.ts";
import { setupPanel } from "./setup-styles.ts";

/** Ratios to low A that drones are tuned to, in words. */
const RATIOS: readonly { readonly ratio: Drone["ratio"]; readonly words: string }[] = [
  { ratio: [1, 1], words: "with low A" },
  { ratio: [3, 4], words: "a fourth under" },
  { ratio: [2, 3], words: "a fifth under" },
  { ratio: [1, 2], words: "an octave under" },
  { ratio: [3, 8], words: "an octave and a fourth under" },
  { ratio: [1, 3], words: "an octave and a fifth under" },
  { ratio: [1, 4], words: "two octaves under" },
];

/**
 * The drones: which sound, and how far under low A. A ratio that has no name here is kept and shown as it is.
 *
 * @fires setup-changed
 */
export class DronesPanel extends LitElement {
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
      ul {
        list-style: none;
        display: grid;
        gap: 8px;
      }
      li {
        display: grid;
        grid-template-columns: 10ch 1fr auto;
        gap: 0 8px;
        align-items: center;
      }
      .sounds {
        font: 400 14px/20px var(--sans);
        font-variant-numeric: tabular-nums lining-nums;
        color: var(--ink-2);
        text-align: end;
        min-inline-size: 13ch;
      }
      .own {
        inline-size: 8ch;
      }
      .wide {
        grid-column: 2 / 4;
      }
      @media (max-width: 599px) {
        li {
          grid-template-columns: 10ch 1fr;
        }
        .sounds,
        .wide {
          grid-column: 2;
          text-align: start;
        }
      }
    `,
  ];

  override render() {
    const { setup } = this;
    return html`<ul>
        ${setup.drones.map((drone, index) => this.#drone(drone, index))}
      </ul>
      <p class="refusal" role="status">${this.refusal}</p>
      ${
        setup.drones.some(({ name }) => name === "baritone")
          ? null
          : html`<div class="offers"><button class="link" type="button" @click=${() => this.#send(withBaritone(setup))}>Add a baritone, a fifth under low A</button></div>`
      }
      <p class="say">A drone that is not ticked is corked: it stays in the stock and is silent.</p>
      ${setupAdvice(setup).map(({ text, source }) => html`<p class="say">${text} <span class="source">${source}</span></p>`)}`;
  }

  #drone(drone: Drone, index: number) {
    const { setup } = this;
    const name = nameOf(setup, index);
    const named = RATIOS.some(({ ratio }) => sameRatio(ratio, drone.ratio));
    return html`<li>
      <label class="tick"><input type="checkbox" .checked=${drone.on} @change=${(event: Event) => this.#change(index, { on: (event.target as HTMLInputElement).checked })} /> ${name}</label>
      <select aria-label="${name}, under low A" @change=${(event: Event) => this.#tune(index, (event.target as HTMLSelectElement).value)}>
        ${RATIOS.map(({ ratio, words }) => html`<option value=${ratio.join("/")} .selected=${sameRatio(ratio, drone.ratio)}>${words}</option>`)}
        <option value="own" .selected=${!named}>another ratio</option>
      </select>
      <span class="sounds">${shownPitch(droneConcertPitch(setup, drone))} ${shownHertz(droneHertz(setup, drone))}</span>
      ${
        named
          ? null
          : html`<label class="field wide">Ratio to low A, such as 2/5
              <input class="own" type="text" .value=${live(drone.ratio.join("/"))} @change=${(event: Event) => this.#tune(index, (event.target as HTMLInputElement).value)}
            /></label>`
      }
      ${drone.name === "baritone" ? html`<button class="link wide" type="button" @click=${() => this.#send(withoutDrone(setup, index))}>Take the baritone away</button>` : null}
    </li>`;
  }

  /** Sets a ratio from its text; `own` asks for the field, with a ratio that has no name yet. */
  #tune(index: number, text: string): void {
    const match = /^\s*(\d{1,3})\s*\/\s*(\d{1,3})\s*$/.exec(text === "own" ? "2/5" : text);
    if (match) this.#change(index, { ratio: [Number(match[1]), Number(match[2])] });
    else this.refusal = `“${text}” is no ratio. A ratio is two whole numbers, such as 2/3.`;
  }

  #change(index: number, change: Partial<Drone>): void {
    this.#send(withDrone(this.setup, index, change));
  }

  #send(setup: PipeSetup): void {
    if (setupFault(setup)) {
      this.refusal = "A drone sounds at or under low A, by two whole numbers, and no more than five octaves under.";
      return;
    }
    this.refusal = "";
    this.dispatchEvent(setupChanged(setup));
  }
}

/** `Tenor 1`, `Tenor 2`, `Bass`: counted where there are several of a name. */
function nameOf({ drones }: PipeSetup, index: number): string {
  const { name } = drones[index] as Drone;
  const like = drones.filter((drone) => drone.name === name).length;
  const before = drones.slice(0, index).filter((drone) => drone.name === name).length;
  const word = name.slice(0, 1).toUpperCase() + name.slice(1);
  return like === 1 ? word : `${word} ${before + 1}`;
}

function sameRatio(a: Drone["ratio"], b: Drone["ratio"]): boolean {
  return a[0] * b[1] === b[0] * a[1];
}

customElements.define("drones-panel", DronesPanel);
