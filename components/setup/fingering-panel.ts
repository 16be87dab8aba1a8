import { css, html, LitElement } from "lit";
import { NINE_NOTES, type PlainNote } from "../../src/pipes/chanter-note.ts";
import { fingeringConsequence, fingeringRefusal } from "../../src/pipes/fingering-words.ts";
import { PLAIN_FINGERINGS } from "../../src/pipes/fingerings.ts";
import { noteName, spokenNote } from "../../src/pipes/note-names.ts";
import type { Holes, PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { withFingering } from "../../src/pipes/setup-changes.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "./hole-row.ts";
import type { HolesChangedEvent } from "./hole-row.ts";
import { panel } from "./panel-styles.ts";
import { setupChanged } from "./setup-events.ts";
import { setupPanel } from "./setup-styles.ts";

/**
 * How the piper fingers the nine, highest first as the rows of the grid are.
 *
 * @fires setup-changed
 */
export class FingeringPanel extends LitElement {
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
      .notes {
        display: grid;
        grid-template-columns: max-content max-content;
        align-items: center;
        gap: 0 16px;
        margin: 0;
      }
      dt {
        font: 600 15px/24px var(--serif);
      }
      dd {
        margin: 0;
      }
      .more {
        grid-column: 1 / -1;
        padding-block-end: 8px;
      }
      @media (max-width: 599px) {
        .notes {
          grid-template-columns: 1fr;
        }
      }
    `,
  ];

  override render() {
    return html`<p class="say">Press a hole: closed, open, half. Finger changes, gracenotes and charts go by what stands here.</p>
      <dl class="notes">${NINE_NOTES.toReversed().map((note) => this.#note(note))}</dl>
      <p class="refusal" role="status">${this.refusal}</p>
      <p class="source">Half-holed notes are not in tune on most Highland chanters: common practice.</p>`;
  }

  #note(note: PlainNote) {
    const holes = this.setup.fingerings[note];
    const usual = PLAIN_FINGERINGS[note];
    const consequence = fingeringConsequence(this.setup, note);
    return html`<dt>${noteName(note)}</dt>
      <dd>
        <hole-row label=${spokenNote(note)} holes=${holes} @holes-changed=${(event: HolesChangedEvent) => this.#change(note, event.detail.holes)}></hole-row>
      </dd>
      ${
        holes === usual
          ? null
          : html`<dd class="more">
              ${consequence === null ? null : html`<p class="fact">${consequence}</p>`}
              <button class="link" type="button" @click=${() => this.#change(note, usual)}>Back to ${usual} for ${noteName(note)}</button>
            </dd>`
      }`;
  }

  #change(note: PlainNote, holes: Holes): void {
    const refusal = fingeringRefusal(this.setup, note, holes);
    this.refusal = refusal ?? "";
    if (refusal === null) this.dispatchEvent(setupChanged(withFingering(this.setup, note, holes)));
  }
}

customElements.define("fingering-panel", FingeringPanel);
