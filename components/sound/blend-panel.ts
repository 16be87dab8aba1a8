import { css, html, LitElement } from "lit";
import {
  type Blend,
  GENTLE_ROOM,
  isAlone,
  isSilent,
  LEAST_LEVEL,
  levelOf,
  MOST_LEVEL,
  type NamedVoice,
  USUAL_BLEND,
  type VoiceKey,
  voiceKey,
  voicesOf,
  withLevel,
} from "../../src/playback/blend.ts";
import { EXPOSURES } from "../../src/playback/hearing.ts";
import { type TuningTone, tuningTones } from "../../src/playback/tuning-tones.ts";
import type { Score } from "../../src/score/score.ts";
import { decibels } from "../../src/units/decibels.ts";
import { shownHertz, shownNumber } from "../../src/units/shown.ts";
import { styleMap } from "../shared/style-map.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "../shared/filled-blank.ts";
import { rangeStyles } from "./range-styles.ts";
import "./voice-panel.ts";
import type { VoiceChangedEvent } from "./voice-panel.ts";

/** The levels are others now. */
export type BlendChangedEvent = CustomEvent<{ readonly blend: Blend }>;

/** A tuning tone is to sound, or (null) to stop. */
export type ToneAskedEvent = CustomEvent<{ readonly tone: TuningTone | null }>;

/**
 * How loud everybody is: a slider for each voice, and its reading, which mutes it when pressed. Under it what is known about pipes and hearing.
 *
 * @fires blend-changed with every movement of a slider
 * @fires tone-asked
 */
export class BlendPanel extends LitElement {
  static override properties = { score: { attribute: false }, blend: { attribute: false }, tone: { attribute: false } };

  declare score: Score;
  declare blend: Blend;
  /** The tuning tone that sounds, or null. */
  declare tone: TuningTone | null;

  constructor() {
    super();
    this.blend = USUAL_BLEND;
    this.tone = null;
  }

  static override styles = [
    controls,
    focusRing,
    rangeStyles,
    css`
      :host {
        display: block;
        container-type: inline-size;
        color: var(--ink);
        font: 400 15px/24px var(--serif);
      }
      h2 {
        font: 600 15px/24px var(--serif);
        margin-block-end: 4px;
      }
      .voices {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 2px 32px;
      }
      .voice {
        display: grid;
        grid-template-columns: 88px minmax(64px, 1fr) 52px;
        gap: 8px;
        align-items: center;
        min-block-size: 28px;
      }
      .name {
        line-height: 18px;
        overflow-wrap: anywhere;
      }
      .fader {
        display: grid;
      }
      /* What comes out, under what is set. It moves with the sound and by nothing else. */
      .meter {
        block-size: 2px;
        margin-block-start: -4px;
        background: linear-gradient(var(--ink-3) 0 0) 0 0 / calc(var(--out, 0) * 100%) 100% no-repeat;
      }
      .reading {
        font: 400 13px/20px var(--sans);
        font-variant-numeric: tabular-nums lining-nums;
        color: var(--ink-2);
        background: none;
        border: 0;
        padding: 2px 0;
        text-align: end;
        text-decoration: underline 1px dotted var(--steel);
        text-underline-offset: 4px;
        cursor: pointer;
        border-radius: var(--r-4);
      }
      .reading:hover {
        color: var(--steel);
      }
      .hearing {
        margin-block-start: 8px;
        font: 400 13px/20px var(--sans);
        color: var(--ink-2);
      }
      .exposures {
        border-collapse: collapse;
        font: 400 13px/20px var(--sans);
        font-variant-numeric: tabular-nums lining-nums;
        margin-block: 8px;
      }
      .exposures th {
        font-weight: 400;
        color: var(--ink-2);
        text-align: start;
        padding-inline-end: 24px;
      }
      .exposures td:first-child {
        padding-inline-end: 24px;
      }
      .exposures tr + tr {
        border-block-start: 1px solid var(--rule-soft);
      }
      .reading[aria-pressed="true"] {
        color: var(--ink);
        font-weight: 600;
      }
      .lesser {
        font: 400 13px/20px var(--sans);
        color: var(--ink-2);
      }
      @container (min-width: 480px) {
        .voices {
          grid-template-columns: repeat(2, minmax(0, 1fr));
        }
      }
      @media (max-width: 599px), (pointer: coarse) {
        .voice {
          min-block-size: 44px;
        }
        .reading {
          min-block-size: 44px;
          min-inline-size: 44px;
        }
      }
    `,
  ];

  override render() {
    return html`<section aria-labelledby="head">
      <h2 id="head">Blend</h2>
      <div class="voices">${voicesOf(this.score).map((voice) => this.#voice(voice))}</div>
      <p class="lesser">${this.#room()} ${this.#tones()}</p>
      <p class="hearing">Starts quiet. Pipes at the ear are commonly put near 100 dB(A): <filled-blank label="Hearing" words="wear protection">${exposureTable()}</filled-blank>.</p>
    </section>`;
  }

  /** With every frame while it plays, past Lit: how strong each voice comes out, decibels under full scale. Nothing for those not named. */
  showLevels(levels: ReadonlyMap<VoiceKey, number>): void {
    for (const meter of this.renderRoot.querySelectorAll<HTMLElement>(".meter")) {
      const level = levels.get(meter.dataset.voice ?? "") ?? LEAST_LEVEL;
      meter.style.setProperty("--out", String(Math.max(0, (level - LEAST_LEVEL) / -LEAST_LEVEL)));
    }
  }

  #voice({ voice, name }: NamedVoice) {
    const level = levelOf(this.blend, voice, this.score);
    const silent = isSilent(level);
    const words = silent ? "silent" : `${shownNumber(level.decibels, 0)} dB`;
    const fill = silent ? 0 : (100 * (level.decibels - LEAST_LEVEL)) / (MOST_LEVEL - LEAST_LEVEL);
    return html`<div class="voice">
      <span class="name">${
        voice.kind === "master"
          ? name
          : html`<filled-blank label=${name} words=${this.#nameWords(voice, name)}><voice-panel .score=${this.score} .blend=${this.blend} .voice=${{ voice, name }} @voice-changed=${this.#voiceChanged}></voice-panel></filled-blank>`
      }</span>
      <span class="fader"><input
        type="range"
        min=${LEAST_LEVEL}
        max=${MOST_LEVEL}
        step="1"
        .value=${String(silent ? LEAST_LEVEL : level.decibels)}
        ?data-silent=${silent}
        aria-label="Level of ${name}"
        aria-valuetext=${words}
        style=${styleMap({ "--fill": `${fill}%` })}
        @input=${(event: Event) => this.#set(voice, { decibels: decibels((event.target as HTMLInputElement).valueAsNumber), muted: false })}
      /><span class="meter" data-voice=${voiceKey(voice)} aria-hidden="true"></span></span>
      <button class="reading" type="button" aria-label="${name}: ${words}. Mute" aria-pressed=${silent ? "true" : "false"} @click=${() => this.#set(voice, muteToggled(level))}>${words}</button>
    </div>`;
  }

  /** What is heard alone says so. */
  #nameWords(voice: NamedVoice["voice"], name: string): string {
    return isAlone(this.blend, voice) ? `${name}, alone` : name;
  }

  #room() {
    const on = this.blend.room !== null;
    return html`<button class="reading" type="button" aria-pressed=${on ? "true" : "false"} @click=${() => this.#tell({ ...this.blend, room: on ? null : GENTLE_ROOM })}>${on ? "In a small room" : "In no room"}</button>.`;
  }

  /** Tones to tune to; pressed again, or another pressed, one stops. */
  #tones() {
    return html`To tune: ${tuningTones(this.score).map((tone, index) => {
      const sounds = this.tone !== null && sameTone(this.tone, tone);
      return html`${index > 0 ? ", " : ""}<button class="reading" type="button" aria-pressed=${sounds ? "true" : "false"} aria-label="Tuning tone, ${tone.name}, ${tone.pitch}, ${shownHertz(tone.hertz)}"
        title="${tone.pitch}, ${shownHertz(tone.hertz)}" @click=${() => this.#sound(sounds ? null : tone)}>${tone.name}</button>`;
    })}.`;
  }

  #sound(tone: TuningTone | null): void {
    this.dispatchEvent(new CustomEvent("tone-asked", { detail: { tone } }) satisfies ToneAskedEvent);
  }

  readonly #voiceChanged = (event: VoiceChangedEvent): void => this.#tell(event.detail.blend);

  #tell(blend: Blend): void {
    // Shown at once; whoever holds the blend hands the same value back.
    this.blend = blend;
    this.dispatchEvent(new CustomEvent("blend-changed", { detail: { blend } }) satisfies BlendChangedEvent);
  }

  #set(voice: NamedVoice["voice"], level: ReturnType<typeof levelOf>): void {
    this.#tell(withLevel(this.blend, voice, level));
  }
}

/** A voice that was drawn down to nothing comes back where it is heard but does not startle. */
const COMES_BACK_AT = decibels(-24);

function muteToggled(level: ReturnType<typeof levelOf>): ReturnType<typeof levelOf> {
  if (!isSilent(level)) return { ...level, muted: true };
  return { decibels: level.decibels <= LEAST_LEVEL ? COMES_BACK_AT : level.decibels, muted: false };
}

function sameTone(one: TuningTone, other: TuningTone): boolean {
  return one.name === other.name && one.voice === other.voice;
}

function exposureTable() {
  return html`<div>
    <p>Local noise-at-work rules come first. One published rule of thumb for the longest daily time at the ear:</p>
    <table class="exposures">
      <thead><tr><th scope="col">dB(A)</th><th scope="col">a day</th></tr></thead>
      <tbody>${EXPOSURES.map(({ level, time }) => html`<tr><td>${level}</td><td>${time}</td></tr>`)}</tbody>
    </table>
    <p class="lesser">NIOSH 98-126 (1998): 85 dB(A) for 8 hours, half the time for every 3 dB more; rows above 100 are worked out by that rule. Pipes measure about 93 to 108 dB(A) in print. Start headphones low.</p>
  </div>`;
}

customElements.define("blend-panel", BlendPanel);

declare global {
  interface HTMLElementTagNameMap {
    "blend-panel": BlendPanel;
  }
}
