import { css, html, LitElement } from "lit";
import { shownKey } from "../../src/pitch/key-signature.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "../shared/filled-blank.ts";
import { panelsLoaded } from "./load-panels.ts";
import { tempoInWords } from "./tempo-words.ts";

/**
 * The song's facts as one line of prose: for whom, key, meter, tempo, and the bar the hand is at. Each can be changed where it
 * stands; key, meter and tempo are those of that bar.
 *
 * @fires edits-asked
 */
export class SongFacts extends LitElement {
  static override properties = { score: { attribute: false }, chosen: { attribute: false } };

  declare score: Score;
  /** The chosen bars, or the one the hand is at. */
  declare chosen: BarRange;

  static override styles = [
    controls,
    focusRing,
    css`
      :host {
        display: block;
        font: 400 15px/24px var(--serif);
        color: var(--ink-2);
      }
      .dot {
        color: var(--ink-3);
        padding-inline: 2px;
      }
    `,
  ];

  constructor() {
    super();
    this.addEventListener("pointerenter", panelsLoaded);
    this.addEventListener("focusin", panelsLoaded);
  }

  override render() {
    const { score, chosen } = this;
    const frame = score.frames[Math.min(chosen.first, score.frames.length - 1)];
    if (frame === undefined) return null;
    const first = barNumber(score, chosen.first);
    const last = barNumber(score, chosen.last);
    const forWhom = score.credits.ensemble === "" ? "for whom?" : score.credits.ensemble;
    const dot = html`<span class="dot" aria-hidden="true"> · </span>`;
    return html`<span>for <filled-blank label="Title and credits" words=${forWhom}><credits-panel .score=${score}></credits-panel></filled-blank></span
      >${dot}<filled-blank label="Key" words=${shownKey(frame.key)}><key-panel .score=${score} .chosen=${chosen}></key-panel></filled-blank
      >${dot}<filled-blank label="Meter" words=${`${frame.meter.beats}/${frame.meter.unit}`}
        ><meter-panel .score=${score} .chosen=${chosen}></meter-panel></filled-blank
      >${dot}<filled-blank label="Tempo" words=${tempoInWords(frame.tempo)}><tempo-panel .score=${score} .chosen=${chosen}></tempo-panel></filled-blank
      >${dot}<filled-blank label="Section, chords, repeats" words=${first === last ? `bar ${first}` : `bars ${first} to ${last}`}
        ><bar-panel .score=${score} .chosen=${chosen}></bar-panel
      ></filled-blank>`;
  }
}

customElements.define("song-facts", SongFacts);

declare global {
  interface HTMLElementTagNameMap {
    "song-facts": SongFacts;
  }
}
