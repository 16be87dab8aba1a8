import { css, html, LitElement, nothing } from "lit";
import type { Drone } from "../../src/pipes/pipe-setup.ts";
import {
  type Blend,
  isAlone,
  type NamedVoice,
  placeOf,
  USUAL_BLEND,
  withAlone,
  withDroneSilent,
  withPlace,
} from "../../src/playback/blend.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { styleMap } from "../shared/style-map.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { rangeStyles } from "./range-styles.ts";

/** The blend is another now. */
export type VoiceChangedEvent = CustomEvent<{ readonly blend: Blend }>;

/**
 * What else can be said of one voice beside its level: whether it is heard alone, where it stands, and of drones each one by itself.
 *
 * @fires voice-changed
 */
export class VoicePanel extends LitElement {
  static override properties = { score: { attribute: false }, blend: { attribute: false }, voice: { attribute: false } };

  declare score: Score;
  declare blend: Blend;
  declare voice: NamedVoice;

  constructor() {
    super();
    this.blend = USUAL_BLEND;
  }

  static override styles = [
    controls,
    focusRing,
    rangeStyles,
    css`
      :host {
        display: grid;
        gap: 12px;
        min-inline-size: 240px;
      }
      .tick {
        display: flex;
        gap: 8px;
        align-items: center;
        min-block-size: 28px;
      }
      fieldset {
        border: 0;
        margin: 0;
        padding: 0;
      }
      .say {
        color: var(--ink-2);
        font: 400 13px/18px var(--sans);
        max-inline-size: 40ch;
      }
      @media (max-width: 599px), (pointer: coarse) {
        .tick {
          min-block-size: 44px;
        }
      }
    `,
  ];

  override render() {
    const { blend, score } = this;
    const { voice, name } = this.voice;
    const place = Math.round(placeOf(blend, voice, score) * 100);
    return html`<label class="tick"><input type="checkbox" .checked=${isAlone(blend, voice)}
          @change=${(event: Event) => this.#tell(withAlone(blend, voice, (event.target as HTMLInputElement).checked))} />Hear ${name} alone</label>
      ${
        voice.kind === "click"
          ? nothing
          : html`<label class="field">Between the loudspeakers: ${placeInWords(place)}
              <input type="range" min="-100" max="100" step="5" .value=${String(place)} aria-valuetext=${placeInWords(place)}
                style=${styleMap({ "--fill": `${(place + 100) / 2}%` })}
                @input=${(event: Event) => this.#tell(withPlace(blend, voice, (event.target as HTMLInputElement).valueAsNumber / 100))} />
            </label>`
      }
      ${voice.kind === "drones" ? this.#drones(voice.line) : nothing}`;
  }

  #drones(line: string) {
    const setup = pipeLineOf(this.score, line)?.setup;
    const drones = setup === undefined ? [] : setup.drones.filter(({ on }) => on);
    if (drones.length === 0) return html`<p class="say">Every drone is corked in the pipe setup.</p>`;
    const silent = this.blend.silentDrones[line] ?? [];
    return html`<fieldset>
      <legend class="say">Heard in the blend; the pipe setup stays as it is</legend>
      ${drones.map(
        ({ name }, place) => html`<label class="tick"><input type="checkbox" .checked=${!silent.includes(place)}
          @change=${(event: Event) => this.#tell(withDroneSilent(this.blend, line, place, !(event.target as HTMLInputElement).checked))} />${nameOf(drones, place, name)}</label>`,
      )}
    </fieldset>`;
  }

  #tell(blend: Blend): void {
    this.blend = blend;
    this.dispatchEvent(new CustomEvent("voice-changed", { detail: { blend } }) satisfies VoiceChangedEvent);
  }
}

/** `tenor`; two of a name are told apart: `first tenor`, `second tenor`. */
function nameOf(drones: readonly Drone[], place: number, name: string): string {
  const same = drones.filter((one) => one.name === name).length;
  if (same < 2) return name;
  const turn = drones.slice(0, place).filter((one) => one.name === name).length;
  return `${["first", "second", "third"][turn] ?? `${turn + 1}th`} ${name}`;
}

function placeInWords(place: number): string {
  if (place === 0) return "in the middle";
  return `${Math.abs(place)} % ${place < 0 ? "left" : "right"}`;
}

customElements.define("voice-panel", VoicePanel);
