import { css, html, LitElement, type PropertyValues } from "lit";
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

interface Draft {
  readonly note: PlainNote;
  readonly holes: Holes;
  /** Why they are not kept. */
  readonly refusal: string;
}

/**
 * How the piper fingers the nine, highest first as the rows of the grid are.
 *
 * @fires setup-changed
 */
export class FingeringPanel extends LitElement {
  static override properties = { setup: { attribute: false }, draft: { state: true } };

  declare setup: PipeSetup;
  /** Holes that cannot be kept as they are, shown until the next press leads on from them: a way from one fingering to another may pass a third. */
  declare private draft: Draft | null;

  constructor() {
    super();
    this.draft = null;
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

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has("setup")) this.draft = null;
  }

  override render() {
    return html`<p class="say">Press a hole: closed, open, half. Finger changes, gracenotes and charts go by what stands here.</p>
      <dl class="notes">${NINE_NOTES.toReversed().map((note) => this.#note(note))}</dl>
      <p class="refusal" role="status">${this.draft === null ? "" : `${this.draft.refusal} It is not kept like this.`}</p>
      <p class="source">Half-holed notes are not in tune on most Highland chanters: common practice.</p>`;
  }

  #note(note: PlainNote) {
    const holes = this.draft?.note === note ? this.draft.holes : this.setup.fingerings[note];
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
    this.draft = refusal === null ? null : { note, holes, refusal };
    if (refusal === null) this.dispatchEvent(setupChanged(withFingering(this.setup, note, holes)));
  }
}

customElements.define("fingering-panel", FingeringPanel);
