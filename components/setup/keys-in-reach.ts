import { css, html, LitElement } from "lit";
import { type KeyInReach, keysAtMost, keysInReach } from "../../src/pipes/keys-in-reach.ts";
import { noteName } from "../../src/pipes/note-names.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { intervalWords } from "../../src/pitch/interval-words.ts";
import { shownKey } from "../../src/pitch/key-signature.ts";
import { controls, focusRing } from "../shared/styles.ts";

/** The keys that a set of pipes reaches, as a table to be read; then those that other cross-fingerings would bring. */
export class KeysInReach extends LitElement {
  static override properties = { setup: { attribute: false } };

  declare setup: PipeSetup;

  static override styles = [
    controls,
    focusRing,
    css`
      :host {
        display: grid;
        gap: 12px;
      }
      .wide {
        overflow-x: auto;
      }
      table {
        border-collapse: collapse;
        font: 400 14px/20px var(--sans);
        inline-size: 100%;
      }
      caption {
        text-align: start;
        font: 600 15px/24px var(--serif);
        padding-block-end: 4px;
      }
      th,
      td {
        text-align: start;
        vertical-align: top;
        padding: 4px 12px 4px 0;
        border-block-end: 1px solid var(--rule-soft);
        font-weight: 400;
      }
      thead th {
        font-size: 13px;
        color: var(--ink-3);
        border-block-end-color: var(--rule);
      }
      tbody th {
        font: 600 15px/20px var(--serif);
        white-space: nowrap;
      }
      .written {
        display: block;
        font: 400 13px/16px var(--sans);
        color: var(--ink-2);
      }
      .whole {
        white-space: nowrap;
      }
      em {
        font-family: var(--serif);
      }
      .say {
        font: 400 14px/20px var(--serif);
        color: var(--ink-2);
      }
    `,
  ];

  override render() {
    const reached = keysInReach(this.setup);
    return html`<div class="wide" tabindex="0" role="region" aria-label="Keys in reach">
        <table>
          <caption>Keys in reach</caption>
          <thead>
            <tr>
              <th scope="col">The band’s key</th>
              <th scope="col">takes</th>
              <th scope="col">reaches from its tonic</th>
            </tr>
          </thead>
          <tbody>
            ${reached.map((key) => this.#row(key))}
          </tbody>
        </table>
      </div>
      ${this.#beyond(reached)}`;
  }

  #row(key: KeyInReach) {
    const takes = key.needs.length === 0 ? html`<span class="whole">the nine</span>` : html`<em>${key.needs.map(noteName).join(", ")}</em>`;
    const crossed = key.crossFingeredTonic
      ? "; its tonic is cross-fingered"
      : key.crossFingeredFifth
        ? "; its fifth is cross-fingered"
        : "";
    return html`<tr>
      <th scope="row">${shownKey(key.concert)} <span class="written">written ${shownKey(key.written)}</span></th>
      <td>${takes}${crossed}</td>
      <td>${noteName(key.tonicNote)}, ${key.below === 0 ? "nothing" : intervalWords(key.below)} down, ${intervalWords(key.above)} up</td>
    </tr>`;
  }

  /** One sentence for each set of cross-fingerings that does not speak and would bring keys. */
  #beyond(reached: readonly KeyInReach[]) {
    const names = new Set(reached.map((key) => shownKey(key.concert)));
    const bySet = new Map<string, string[]>();
    for (const key of keysAtMost(this.setup)) {
      if (names.has(shownKey(key.concert))) continue;
      const needs = key.needs.map(noteName).join(" and ");
      bySet.set(needs, [...(bySet.get(needs) ?? []), shownKey(key.concert)]);
    }
    return [...bySet].map(
      ([needs, keys]) =>
        html`<p class="say">With ${needs} speaking: ${keys.map((key, index) => html`${index > 0 ? ", " : ""}<span class="whole">${key}</span>`)}.</p>`,
    );
  }
}

customElements.define("keys-in-reach", KeysInReach);

declare global {
  interface HTMLElementTagNameMap {
    "keys-in-reach": KeysInReach;
  }
}
