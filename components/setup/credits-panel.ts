import { html, LitElement } from "lit";
import type { Score } from "../../src/score/score.ts";
import { editsAsked } from "../shared/edits-asked.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { closePanel, panel } from "./panel-styles.ts";

/** Title and credits, as they stand at the head of every page. */
export class CreditsPanel extends LitElement {
  static override properties = { score: { attribute: false } };

  declare score: Score;

  static override styles = [controls, focusRing, panel];

  override render() {
    const { title, credits } = this.score;
    return html`<form @submit=${this.#set}>
      ${textField("Title", "title", title)} ${textField("For (the players)", "ensemble", credits.ensemble)}
      <div class="row">${textField("Composer", "composer", credits.composer)} ${textField("Arranger", "arranger", credits.arranger)}</div>
      ${textField("Kind of tune", "tuneType", credits.tuneType)}
      <p class="say">Performing or recording a cover needs the rights holder’s permission or a licence under local law. Ninefold cannot give it.</p>
      <div class="acts"><button class="btn main" type="submit">Set</button></div>
    </form>`;
  }

  readonly #set = (event: SubmitEvent): void => {
    event.preventDefault();
    const fields = new FormData(event.target as HTMLFormElement);
    const text = (name: string): string => String(fields.get(name) ?? "").trim();
    const credits = { composer: text("composer"), arranger: text("arranger"), ensemble: text("ensemble"), tuneType: text("tuneType") };
    this.dispatchEvent(editsAsked("title and credits", { kind: "title", title: text("title") }, { kind: "credits", credits }));
    closePanel(this);
  };
}

function textField(label: string, name: string, value: string) {
  return html`<label class="field">${label} <input type="text" name=${name} maxlength="200" .value=${value} autocomplete="off" /></label>`;
}

customElements.define("credits-panel", CreditsPanel);
