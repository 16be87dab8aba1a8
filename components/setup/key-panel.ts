import { html, LitElement } from "lit";
import type { Mode } from "../../src/pitch/key.ts";
import { readableKey } from "../../src/pitch/key-signature.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { editsAsked } from "../shared/edits-asked.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "./bar-scope.ts";
import { closePanel, panel } from "./panel-styles.ts";

const TONICS = ["C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "G#", "Ab", "A", "Bb", "B"] as const;
const MODES: readonly Mode[] = ["major", "mixolydian", "dorian", "minor"];

/** The band's key for some bars, at concert pitch. */
export class KeyPanel extends LitElement {
  static override properties = { score: { attribute: false }, chosen: { attribute: false } };

  declare score: Score;
  declare chosen: BarRange;

  static override styles = [controls, focusRing, panel];

  override render() {
    const key = this.score.frames[this.chosen.first]?.key;
    return html`<form @submit=${this.#set}>
      <p class="say">The band’s key, at concert pitch. The pipe part carries no key signature, so it does not change; the other parts do.</p>
      <div class="row">
        <label class="field">Tonic
          <select name="tonic">
            ${TONICS.map((tonic) => html`<option value=${tonic} ?selected=${tonic === key?.tonic}>${tonic.replace("#", "♯").replace("b", "♭")}</option>`)}
          </select>
        </label>
        <label class="field">Mode
          <select name="mode">
            ${MODES.map((mode) => html`<option value=${mode} ?selected=${mode === key?.mode}>${mode}</option>`)}
          </select>
        </label>
      </div>
      <bar-scope .score=${this.score} .chosen=${this.chosen}></bar-scope>
      <div class="acts"><button class="btn main" type="submit">Set the key</button></div>
    </form>`;
  }

  readonly #set = (event: SubmitEvent): void => {
    event.preventDefault();
    const fields = new FormData(event.target as HTMLFormElement);
    const scope = this.renderRoot.querySelector("bar-scope");
    if (scope === null) return;
    const key = readableKey({ tonic: String(fields.get("tonic")), mode: fields.get("mode") as Mode });
    this.dispatchEvent(editsAsked("the key", { kind: "key", range: scope.range, key }));
    closePanel(this);
  };
}

customElements.define("key-panel", KeyPanel);
