import { html, LitElement, nothing } from "lit";
import { beatAt, momentInWords } from "../../src/playback/beat-at.ts";
import {
  GRACENOTE_REACH,
  loopInWords,
  type PlaySettings,
  stretchOfBars,
  UNISON_BEAT_REACH,
  USUAL_SETTINGS,
  wholeBars,
} from "../../src/playback/play-settings.ts";
import { LEAST_TEMPO_PERCENT, MOST_TEMPO_PERCENT, type Stretch } from "../../src/playback/timeline.ts";
import type { Moment } from "../../src/score/address.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import type { Score } from "../../src/score/score.ts";
import { shownNumber } from "../../src/units/shown.ts";
import { ticks } from "../../src/units/ticks.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import "../shared/filled-blank.ts";
import { styleMap } from "../shared/style-map.ts";
import { rangeStyles } from "./range-styles.ts";
import { transportStyles } from "./transport-styles.ts";

/** Play from a moment; where a loop is set, the loop. */
export type PlayAskedEvent = CustomEvent<{ readonly from: Moment }>;
export type TempoChangedEvent = CustomEvent<{ readonly tempoPercent: number }>;
export type LoopChangedEvent = CustomEvent<{ readonly loop: Stretch | null }>;
/** Length of gracenotes, beating of the tenors, or how soon the drones begin. */
export type MannerChangedEvent = CustomEvent<Partial<Pick<PlaySettings, "gracenoteMs" | "unisonBeat" | "droneLead">>>;
export type CountInChangedEvent = CustomEvent<{ readonly countIn: boolean }>;

const START: Moment = { bar: 0, at: ticks(0) };

/**
 * Play and stop, where it is, and how it is played, as words.
 *
 * @fires play-asked
 * @fires stop-asked
 * @fires tempo-changed
 * @fires loop-changed
 * @fires count-in-changed
 * @fires manner-changed
 */
export class TransportBar extends LitElement {
  static override properties = {
    score: { attribute: false },
    playing: { type: Boolean },
    loading: { type: Boolean },
    moment: { attribute: false },
    here: { attribute: false },
    chosen: { attribute: false },
    settings: { attribute: false },
    trouble: { type: String },
  };

  declare score: Score;
  declare playing: boolean;
  /** The sound is being fetched. */
  declare loading: boolean;
  /** What is heard now, or null. */
  declare moment: Moment | null;
  /** Where "from here" begins: what is chosen, or the first bar in view. Null: nothing is offered. */
  declare here: Moment | null;
  /** A chosen stretch that may be looped, or null. */
  declare chosen: Stretch | null;
  declare settings: PlaySettings;
  /** Why there is no sound, or an empty text. */
  declare trouble: string;

  constructor() {
    super();
    this.playing = false;
    this.loading = false;
    this.moment = null;
    this.here = null;
    this.chosen = null;
    this.settings = USUAL_SETTINGS;
    this.trouble = "";
  }

  static override styles = [controls, focusRing, visuallyHidden, rangeStyles, transportStyles];

  override render() {
    const busy = this.playing || this.loading;
    return html`<div class="bar" role="group" aria-label="Playing">
      <button class="play" type="button" aria-label=${busy ? "Stop" : "Play"} aria-busy=${this.loading ? "true" : "false"} @click=${busy ? this.#stop : this.#play}>
        <svg viewBox="0 0 44 44" aria-hidden="true"><path d=${busy ? STOP_SIGN : PLAY_SIGN}></path></svg>
      </button>
      ${this.here === null || busy ? nothing : html`<button class="link" type="button" title=${momentInWords(this.score, this.here)} @click=${this.#playHere}>from here</button>`}
      ${this.#reading()}
      <span class="setting"><filled-blank label="Tempo and count-in" words="${this.settings.tempoPercent} %">${this.#tempo()}</filled-blank> tempo${this.settings.countIn ? ", counted in" : nothing}</span>
      <span class="setting"><filled-blank label="Loop" words=${loopInWords(this.score, this.settings.loop)}>${this.#loop()}</filled-blank></span>
      <span class="told" role="status">${this.trouble !== "" ? this.trouble : this.loading ? html`<span class="wait">Fetching the sound</span>` : nothing}</span>
    </div>`;
  }

  /** What is heard, or where playing would begin. Not a live region: it changes with every beat. */
  #reading() {
    const { bar, at } = this.moment ?? (this.playing ? START : (this.here ?? START));
    const frame = this.score.frames[bar];
    return html`<span class="reading">bar <b>${barNumber(this.score, bar)}</b> beat <b>${frame === undefined ? 1 : beatAt(frame, at)}</b></span>`;
  }

  #tempo() {
    const { tempoPercent, countIn } = this.settings;
    const fill = (100 * (tempoPercent - LEAST_TEMPO_PERCENT)) / (MOST_TEMPO_PERCENT - LEAST_TEMPO_PERCENT);
    return html`<div class="panel">
      <label class="field">Percent of the written tempo
        <input type="range" min=${LEAST_TEMPO_PERCENT} max=${MOST_TEMPO_PERCENT} step="1" .value=${String(tempoPercent)} aria-valuetext="${tempoPercent} percent"
          style=${styleMap({ "--fill": `${fill}%` })} @input=${this.#tempoMoved} />
      </label>
      <div class="acts">
        <input type="number" min=${LEAST_TEMPO_PERCENT} max=${MOST_TEMPO_PERCENT} step="1" aria-label="Percent" .value=${String(tempoPercent)} @change=${this.#tempoMoved} />
        <button class="link" type="button" @click=${() => this.#tell("tempo-changed", { tempoPercent: 100 })}>As written</button>
      </div>
      <label class="check"><input type="checkbox" .checked=${countIn} @change=${this.#countIn} />Count a bar first</label>
      ${this.#manner()}
    </div>`;
  }

  /** How the pipes are played. */
  #manner() {
    const { gracenoteMs, droneLead, unisonBeat } = this.settings;
    const number = (event: Event) => (event.target as HTMLInputElement).valueAsNumber;
    const slider = (words: string, value: number, reach: { readonly least: number; readonly most: number }, step: number, name: string) =>
      html`<label class="field">${words}
        <input type="range" min=${reach.least} max=${reach.most} step=${step} .value=${String(value)} aria-valuetext=${words}
          style=${styleMap({ "--fill": `${(100 * (value - reach.least)) / (reach.most - reach.least)}%` })} @input=${(event: Event) => this.#tell("manner-changed", { [name]: number(event) })} />
      </label>`;
    return html`<fieldset class="manner">
      <legend>How the pipes are played</legend>
      ${slider(`A gracenote lasts ${shownNumber(gracenoteMs, 0)} ms`, gracenoteMs, GRACENOTE_REACH, 1, "gracenoteMs")}
      ${slider(`Two tenors beat ${shownNumber(unisonBeat, 2)} times a second`, unisonBeat, UNISON_BEAT_REACH, 0.05, "unisonBeat")}
      <label class="field">Drones sound before the strike-in
        <select @change=${(event: Event) => this.#tell("manner-changed", { droneLead: (event.target as HTMLSelectElement).value })}>
          <option value="bar" ?selected=${droneLead === "bar"}>a bar</option>
          <option value="beat" ?selected=${droneLead === "beat"}>a beat</option>
        </select>
      </label>
    </fieldset>`;
  }

  #loop() {
    const { score, chosen, settings } = this;
    const last = score.frames.length - 1;
    const bars = settings.loop === null ? null : wholeBars(score, settings.loop);
    const proposed = bars ?? { first: Math.min(this.here?.bar ?? 0, last), last: Math.min((this.here?.bar ?? 0) + 3, last) };
    const [least, most] = [barNumber(score, 0), barNumber(score, last)];
    const field = (name: string, words: string, bar: number) =>
      html`<label class="field">${words}
        <input name=${name} type="number" min=${least} max=${most} step="1" required .value=${String(barNumber(score, bar))} />
      </label>`;
    return html`<form class="panel" @submit=${this.#loopSet}>
      <div class="acts">${field("first", "From bar", proposed.first)}${field("last", "to bar", proposed.last)}</div>
      <div class="acts">
        <button class="btn main" type="submit">Loop these bars</button>
        ${chosen === null ? nothing : html`<button class="link" type="button" @click=${() => this.#chooseLoop(chosen)}>Loop what is chosen</button>`}
        ${settings.loop === null ? nothing : html`<button class="link" type="button" @click=${() => this.#chooseLoop(null)}>No loop</button>`}
      </div>
    </form>`;
  }

  readonly #play = (): void => {
    this.#tell("play-asked", { from: this.settings.loop?.from ?? START });
  };

  readonly #playHere = (): void => {
    if (this.here !== null) this.#tell("play-asked", { from: this.here });
  };

  readonly #stop = (): void => {
    this.dispatchEvent(new CustomEvent("stop-asked"));
  };

  readonly #countIn = (event: Event): void => {
    this.#tell("count-in-changed", { countIn: (event.target as HTMLInputElement).checked });
  };

  readonly #tempoMoved = (event: Event): void => {
    const asked = (event.target as HTMLInputElement).valueAsNumber;
    if (!Number.isFinite(asked)) return;
    const tempoPercent = Math.min(MOST_TEMPO_PERCENT, Math.max(LEAST_TEMPO_PERCENT, Math.round(asked)));
    (event.target as HTMLInputElement).value = String(tempoPercent);
    this.#tell("tempo-changed", { tempoPercent });
  };

  readonly #loopSet = (event: SubmitEvent): void => {
    event.preventDefault();
    const fields = new FormData(event.target as HTMLFormElement);
    const ends = [Number(fields.get("first")), Number(fields.get("last"))].map((number) => number - barNumber(this.score, 0));
    const [first, last] = [Math.min(...ends), Math.max(...ends)];
    this.#chooseLoop(stretchOfBars(this.score, first, last));
  };

  #chooseLoop(loop: Stretch | null): void {
    this.#tell("loop-changed", { loop });
    for (const blank of this.renderRoot.querySelectorAll("filled-blank")) if (blank.label === "Loop") blank.hide();
  }

  #tell(name: string, detail: object): void {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}

const PLAY_SIGN = "M17 13.5 L31 22 L17 30.5 Z";
const STOP_SIGN = "M16 16 H28 V28 H16 Z";

customElements.define("transport-bar", TransportBar);

declare global {
  interface HTMLElementTagNameMap {
    "transport-bar": TransportBar;
  }
}
