import { html, LitElement, nothing, type PropertyValues } from "lit";
import { gracedNoteInWords } from "../../src/arranging/graced-note-words.ts";
import type { GracingDepth } from "../../src/arranging/gracing.ts";
import { TUNE_TYPES, type TuneType } from "../../src/arranging/gracing-rules.ts";
import { type LineAct, type LineActPlan, planOf } from "../../src/arranging/line-act.ts";
import { type LineScope, lineScopes, WHOLE_LINE } from "../../src/arranging/line-scope.ts";
import type { Stretch } from "../../src/arranging/stretch.ts";
import { tuneTypeOf } from "../../src/arranging/tune-type-of.ts";
import type { Address } from "../../src/score/address.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";
import "../shared/filled-blank.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import { lineSentenceStyles } from "./line-sentence-styles.ts";

/** What is to be done is another: this is what it would come to. */
export type PlanChangedEvent = CustomEvent<{ readonly plan: LineActPlan }>;
/** A place is stepped to. */
export type PlaceShownEvent = CustomEvent<{ readonly address: Address }>;

const ACTS: readonly (readonly [kind: LineAct["kind"], words: string])[] = [
  ["grace", "Grace"],
  ["hold", "Hold repeated notes"],
  ["bare", "Take the gracenotes away"],
];

/** What stands between what is done and where. */
const JOINTS: Readonly<Record<LineAct["kind"], string>> = { grace: " ", hold: " through each beat in ", bare: " from " };

const DEPTHS: readonly (readonly [depth: GracingDepth, words: string])[] = [
  ["dividing", "only what divides like notes"],
  ["on-beat", "a gracenote on each beat"],
  ["full", "fully"],
];

/**
 * A sentence in which many notes of a line are changed at once. It plans and says what that comes to; showing it, keeping it and leaving it are
 * the host's.
 *
 * @fires plan-changed before anything is kept, and whenever the sentence is another
 * @fires place-shown
 * @fires plan-kept
 * @fires plan-left
 */
export class LineSentence extends LitElement {
  static override properties = {
    score: { attribute: false },
    proposed: { attribute: false },
    line: { attribute: false },
    chosen: { attribute: false },
    bar: { attribute: false },
    refusal: { type: String },
    kind: { state: true },
    tuneType: { state: true },
    depth: { state: true },
    scope: { state: true },
    shown: { state: true },
  };

  /** The score that is kept. */
  declare score: Score;
  /** The score that is proposed; the kept one where nothing is. */
  declare proposed: Score;
  declare line: LineId;
  /** The stretch that is chosen on the line, or null. */
  declare chosen: Stretch | null;
  /** The bar the hand is at. */
  declare bar: number;
  /** Why something cannot be done now; empty otherwise. */
  declare refusal: string;
  declare private kind: LineAct["kind"];
  /** Null: as the tune says. */
  declare private tuneType: TuneType | null;
  declare private depth: GracingDepth;
  declare private scope: LineScope["kind"];
  /** Which of the places was stepped to, from 0; -1: none yet. */
  declare private shown: number;

  #plan: LineActPlan = { edits: [], label: "", words: "" };
  #places: readonly Address[] = [];
  #scopes: readonly LineScope[] = [];

  static override styles = [controls, focusRing, visuallyHidden, lineSentenceStyles];

  constructor() {
    super();
    this.line = "";
    this.chosen = null;
    this.bar = 0;
    this.refusal = "";
    this.kind = "grace";
    this.tuneType = null;
    this.depth = "on-beat";
    this.scope = "line";
    this.shown = -1;
  }

  override render() {
    const nothingToDo = this.#plan.edits.length === 0;
    return html`<section aria-label="Grace the line">
      <span class="cap">${nothingToDo ? "Nothing proposed" : "Proposed"}</span>
      <div>
        <p class="sentence">${this.#sentence()}</p>
        <p class="says" role="status">${this.refusal === "" ? this.#said() : html`<span class="refusal">${this.refusal}</span>`}</p>
      </div>
      <div class="acts">
        ${nothingToDo ? nothing : this.#steps()}
        <button class="btn main" type="button" ?disabled=${nothingToDo} @click=${() => this.#tell("plan-kept")}>Keep</button>
        <button class="btn" type="button" @click=${() => this.#tell("plan-left")}>Leave it</button>
      </div>
    </section>`;
  }

  /** Gives the keys to the sentence. */
  override focus(): void {
    this.renderRoot.querySelector("filled-blank")?.focus();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has("chosen")) this.scope = this.chosen === null ? "line" : "near";
    const wishes = ["score", "line", "chosen", "bar", "kind", "tuneType", "depth", "scope"];
    if (![...changed.keys()].some((name) => wishes.includes(String(name)))) return;
    this.#scopes = lineScopes(this.score, this.chosen, this.bar);
    this.#plan = planOf(this.score, this.line, this.#act, this.#scope.stretch);
    this.#places = this.#plan.edits.flatMap((edit) => (edit.kind === "gracenotes" || edit.kind === "tie" ? [edit.at] : []));
    this.shown = -1;
    this.dispatchEvent(new CustomEvent("plan-changed", { detail: { plan: this.#plan } }) satisfies PlanChangedEvent);
  }

  get #scope(): LineScope {
    return this.#scopes.find(({ kind }) => kind === this.scope) ?? WHOLE_LINE;
  }

  get #tuneType(): TuneType {
    return this.tuneType ?? tuneTypeOf(this.score, this.#scope.stretch?.from.bar ?? this.bar);
  }

  get #act(): LineAct {
    return this.kind === "grace" ? { kind: "grace", tuneType: this.#tuneType, depth: this.depth } : { kind: this.kind };
  }

  /** One template for every act, so that the blank that is open stays the same element. */
  #sentence() {
    const what = this.#blank("What is done", ACTS, this.kind, (kind) => {
      this.kind = kind;
    });
    const scopes = this.#scopes.map(({ kind, words }) => [kind, words] as const);
    const where = this.#blank("Where", scopes, this.#scope.kind, (scope) => {
      this.scope = scope;
    });
    return html`${what}${JOINTS[this.kind]}${where}${this.kind === "grace" ? this.#manner() : nothing}.`;
  }

  #manner() {
    const types = TUNE_TYPES.map((type) => [type, type] as const);
    const type = this.#blank("Kind of tune", types, this.#tuneType, (tuneType) => {
      this.tuneType = tuneType;
    });
    const depth = this.#blank(
      "How much",
      DEPTHS,
      this.depth,
      (wanted) => {
        this.depth = wanted;
      },
      html`<p class="note">What a kind of tune carries in full is from memory: settings differ, and no rule for it is published. Set by hand what you know better.</p>`,
    );
    return html` as a ${type}: ${depth}`;
  }

  #blank<Value extends string>(
    label: string,
    choices: readonly (readonly [value: Value, words: string])[],
    now: Value,
    choose: (value: Value) => void,
    note: unknown = nothing,
  ) {
    const words = choices.find(([value]) => value === now)?.[1] ?? now;
    return html`<filled-blank label=${label} words=${words}
      ><fieldset>
        <legend class="cap">${label}</legend>
        ${choices.map(
          ([value, choice]) =>
            html`<label><input type="radio" name=${label} .checked=${value === now} @change=${() => choose(value)} /> ${choice}</label>`,
        )}</fieldset
      >${note}</filled-blank
    >`;
  }

  /** What it comes to and, while places are stepped through, what is at this one. */
  #said(): string {
    const place = this.#places[this.shown];
    return place === undefined ? this.#plan.words : `${this.#plan.words} ${gracedNoteInWords(this.proposed, place)}`;
  }

  #steps() {
    const count = this.#places.length;
    return html`<span class="steps"
      ><button class="link" type="button" @click=${() => this.#step(-1)}>Previous</button
      ><span class="where" role="status">${this.shown < 0 ? `${count} place${count === 1 ? "" : "s"}` : `${this.shown + 1} of ${count}`}</span
      ><button class="link" type="button" @click=${() => this.#step(1)}>Next</button></span
    >`;
  }

  /** After the last comes the first. */
  #step(by: 1 | -1): void {
    const count = this.#places.length;
    this.shown = this.shown < 0 && by < 0 ? count - 1 : (this.shown + by + count) % count;
    const address = this.#places[this.shown];
    if (address === undefined) return;
    this.dispatchEvent(new CustomEvent("place-shown", { detail: { address } }) satisfies PlaceShownEvent);
  }

  #tell(event: "plan-kept" | "plan-left"): void {
    this.dispatchEvent(new CustomEvent(event));
  }
}

customElements.define("line-sentence", LineSentence);

declare global {
  interface HTMLElementTagNameMap {
    "line-sentence": LineSentence;
  }
}
