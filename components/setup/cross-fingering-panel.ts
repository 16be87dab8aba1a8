import { css, html, LitElement, type PropertyValues } from "lit";
import { live } from "lit/directives/live.js";
import { CROSS_FINGERED_NOTES, type CrossFingeredNote } from "../../src/pipes/chanter-note.ts";
import { crossFingeringEntry, UNMEASURED_CENTS } from "../../src/pipes/cross-fingerings.ts";
import { fingeringRefusal } from "../../src/pipes/fingering-words.ts";
import { leadingToneOf } from "../../src/pipes/leading-tone.ts";
import { noteName, spokenNote } from "../../src/pipes/note-names.ts";
import type { CrossFingering, Holes, PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import { setupFault } from "../../src/pipes/setup-fault.ts";
import { equalCentsOf, tunerReading } from "../../src/pipes/tuner-cents.ts";
import type { Key } from "../../src/pitch/key.ts";
import { shownKey } from "../../src/pitch/key-signature.ts";
import { cents } from "../../src/units/cents.ts";
import { rounded } from "../../src/units/shown.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "./hole-row.ts";
import type { HolesChangedEvent } from "./hole-row.ts";
import { panel } from "./panel-styles.ts";
import { setupChanged } from "./setup-events.ts";
import { setupPanel } from "./setup-styles.ts";

/**
 * Which cross-fingerings speak on this chanter with this reed, with which holes, and where they sound.
 *
 * @fires setup-changed
 */
export class CrossFingeringPanel extends LitElement {
  static override properties = { setup: { attribute: false }, key: { attribute: false }, refusal: { state: true }, draft: { state: true } };

  declare setup: PipeSetup;
  /** The concert key in force, or null where no music is at hand. */
  declare key: Key | null;
  declare private refusal: string;
  /** Holes that another note has, shown until the next press leads on from them. */
  declare private draft: { readonly note: CrossFingeredNote; readonly holes: Holes } | null;

  constructor() {
    super();
    this.key = null;
    this.refusal = "";
    this.draft = null;
  }

  static override styles = [
    controls,
    focusRing,
    panel,
    setupPanel,
    css`
      .note {
        display: grid;
        gap: 4px;
        padding-block-start: 8px;
        border-block-start: 1px solid var(--rule-soft);
      }
      .name {
        font: italic 400 17px/24px var(--serif);
      }
      .row {
        align-items: center;
        gap: 4px 16px;
      }
      .cents {
        display: flex;
        align-items: center;
        gap: 8px;
      }
      .cents input {
        inline-size: 9ch;
        text-align: end;
      }
    `,
  ];

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has("setup")) this.draft = null;
  }

  override render() {
    return html`<p class="say">Tick one once you have tried it on this chanter with this reed; then it is offered. C and C natural are often not both in tune.</p>
      ${this.#leadingTone()}
      ${CROSS_FINGERED_NOTES.map((note) => this.#note(note))}
      <p class="refusal" role="status">${this.refusal}</p>
      <p class="source">Cents: ${UNMEASURED_CENTS}</p>`;
  }

  /** What the key in force asks for. */
  #leadingTone() {
    if (this.key === null) return null;
    return html`<p class="fact">${leadingToneSentence(this.setup, this.key)}</p>`;
  }

  #note(note: CrossFingeredNote) {
    const own = this.setup.crossFingerings.find((fingering) => fingering.note === note) as CrossFingering;
    const entry = crossFingeringEntry(note);
    const others = entry.holes.filter((holes) => holes !== own.holes);
    const change = (part: Partial<CrossFingering>) => this.#change(note, part);
    const holes = this.draft?.note === note ? this.draft.holes : own.holes;
    return html`<div class="note">
      <label class="tick"
        ><input type="checkbox" .checked=${own.speaks} @change=${(event: Event) => change({ speaks: (event.target as HTMLInputElement).checked })} />
        <span><span class="name">${noteName(note)}</span> speaks</span></label
      >
      <div class="row">
        <hole-row label=${spokenNote(note)} holes=${holes} @holes-changed=${(event: HolesChangedEvent) => change({ holes: event.detail.holes })}></hole-row>
        <label class="cents cap"
          >tuner, low A at 0
          <input type="number" step="any" aria-label="${spokenNote(note)}, cents on the tuner" .value=${live(String(rounded(tunerReading(note, own.cents), 1)))}
            @change=${(event: Event) => this.#measure(note, (event.target as HTMLInputElement).valueAsNumber)}
        /></label>
      </div>
      ${others.map((holes) => html`<button class="link" type="button" @click=${() => change({ holes })}>${own.holes === entry.holes[0] ? "Or" : "Back to"} ${holes}</button>`)}
      <p class="source">Holes: ${entry.holesSource}</p>
    </div>`;
  }

  #measure(note: CrossFingeredNote, reading: number): void {
    if (Number.isFinite(reading)) this.#change(note, { cents: cents(equalCentsOf(note) + reading) });
    else this.refusal = `Type how many cents the tuner reads for ${noteName(note)}.`;
  }

  #change(note: CrossFingeredNote, change: Partial<CrossFingering>): void {
    const changed = withCrossFingering(this.setup, note, change);
    if (setupFault(changed)) {
      this.refusal = `That is out of the chanter’s reach for ${noteName(note)}. It was left as it was.`;
      return;
    }
    const alike = change.holes === undefined ? null : fingeringRefusal(this.setup, note, change.holes);
    if (alike !== null && change.holes !== undefined) {
      this.draft = { note, holes: change.holes };
      this.refusal = `${alike} It is not kept like this.`;
      return;
    }
    this.draft = null;
    this.refusal = "";
    this.dispatchEvent(setupChanged(changed));
  }
}

/** Where the leading tone of a key lies, in one sentence. */
function leadingToneSentence(setup: PipeSetup, key: Key): string {
  const tone = leadingToneOf(setup, key);
  const tonic = shownKey(key);
  if (tone.kind === "none") return `In ${tonic} the leading tone cannot be had on this chanter.`;
  if (tone.kind === "plain") return `In ${tonic} the leading tone is plain ${noteName(tone.note)}: nothing is needed for it.`;
  return `In ${tonic} the leading tone is ${noteName(tone.note)}, cross-fingered${tone.note === "high-g-sharp" ? ", upper octave only" : ""}.`;
}

customElements.define("cross-fingering-panel", CrossFingeringPanel);
