import { html, LitElement, nothing, type PropertyValues } from "lit";
import { auditionsAt } from "../../src/arranging/auditions.ts";
import { isCrossFingered } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { AuditionCompany } from "../../src/playback/audition-company.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import type { Address, Moment } from "../../src/score/address.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import type { BarRange, Edit } from "../../src/score/edit.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { inkStyles } from "../notation/notation-styles.ts";
import { snippetElement } from "../notation/part-snippet.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { rangeStyles } from "../sound/range-styles.ts";
import { auditionColumn } from "./audition-column.ts";
import "./audition-ribbon.ts";
import type { AuditionRibbon } from "./audition-ribbon.ts";
import { crossFingeringSliders } from "./audition-sliders.ts";
import { auditionStyles } from "./audition-styles.ts";
import { pictureOf, type SeenVersion, seenVersions } from "./audition-version.ts";

/** What sounds: called whenever it is to be something else; says where it is heard first. */
export interface AuditionSound {
  begin(score: Score, range: BarRange): Promise<void>;
  hear(score: Score, when: "beat" | "soon"): Moment | null;
  stop(): void;
}

/** A version is to be kept, or a cross-fingering as it was set. */
export type AuditionKeptEvent = CustomEvent<{ readonly edits: readonly Edit[]; readonly label: string }>;

const COMPANIES: readonly (readonly [AuditionCompany, string])[] = [
  ["drones", "Drones only"],
  ["chord", "With the chord"],
  ["band", "Full band"],
];

/** How wide the picture of a version is engraved, desk pixels. */
const PICTURE = 420;

/**
 * One place, heard in several ways that change over on the beat, and what the ear will judge of each side by side.
 *
 * @fires audition-kept
 * @fires audition-left
 */
export class AuditionView extends LitElement {
  static override properties = {
    score: { attribute: false },
    at: { attribute: false },
    blend: { attribute: false },
    question: { state: true },
    company: { state: true },
    range: { state: true },
    asked: { state: true },
    heard: { state: true },
    draft: { state: true },
    silent: { state: true },
    open: { state: true },
  };

  declare score: Score;
  declare at: Address;
  declare blend: Blend;
  /** Set before it is shown. */
  sound: AuditionSound | null = null;
  declare private question: number;
  declare private company: AuditionCompany;
  declare private range: BarRange;
  declare private asked: number;
  declare private heard: number;
  /** The setup as the sliders have it while they are held; null: as it is kept. */
  declare private draft: PipeSetup | null;
  declare private open: boolean;
  /** Whether it was stopped; the next version that is pressed begins again. */
  declare private silent: boolean;
  /** The setup as it was when this was opened. */
  #opened: PipeSetup | null = null;

  constructor() {
    super();
    this.blend = USUAL_BLEND;
    this.question = 0;
    this.company = "band";
    this.range = { first: 0, last: 0 };
    this.asked = 0;
    this.heard = 0;
    this.draft = null;
    this.open = false;
    this.silent = false;
  }

  static override styles = [controls, focusRing, inkStyles, rangeStyles, auditionStyles];

  /** Opens on a place and lets the first version sound. */
  async show(): Promise<void> {
    this.open = true;
    this.question = 0;
    this.asked = 0;
    this.heard = 0;
    this.draft = null;
    this.silent = false;
    this.#opened = pipeLineOf(this.score, this.at.line)?.setup ?? null;
    this.company = this.score.lines.some(({ kind }) => kind === "concert") ? "band" : "drones";
    this.range = { first: this.at.bar, last: Math.min(this.at.bar + 1, this.score.frames.length - 1) };
    await this.updateComplete;
    this.#dialog.showModal();
    await this.#begin();
  }

  readonly hide = (): void => this.#dialog.close();

  /** With every frame: what is heard now. */
  moveTo(moment: Moment | null): void {
    if (!this.open || moment === null) return;
    const version = this.#ribbon?.moved(moment) ?? null;
    if (version !== null) this.heard = version;
  }

  override render() {
    return html`<dialog aria-labelledby="head" @close=${this.#closed} @keydown=${this.#key}>${this.open ? this.#content() : nothing}</dialog>`;
  }

  #content() {
    const { offers, remarks } = auditionsAt(this.#draftScore, this.at);
    const versions = this.#versions;
    const { first, last } = this.range;
    const bars =
      first === last ? `bar ${barNumber(this.score, first)}` : `bars ${barNumber(this.score, first)} to ${barNumber(this.score, last)}`;
    return html`<header>
        <h2 id="head">${offers[this.question]?.question ?? "Nothing to compare here"}</h2>
        <span class="where">${bars} of ${this.score.title === "" ? "the sketch" : this.score.title}
          <button class="link" type="button" @click=${() => this.#resize(-1)} ?disabled=${first === last}>a bar less</button>
          <button class="link" type="button" @click=${() => this.#resize(1)} ?disabled=${last + 1 >= this.score.frames.length}>a bar more</button></span>
        <span class="choices" role="group" aria-label="Who else sounds">${COMPANIES.map(
          ([company, words]) =>
            html`<button class="link" type="button" aria-pressed=${company === this.company ? "true" : "false"} @click=${() => this.#accompany(company)}>${words}</button>`,
        )}</span>
        <button class="btn" type="button" @click=${this.hide}>Back to the sketch</button>
      </header>
      <div class="asked">
        <div class="choices" role="group" aria-label="What is compared">${offers.map(
          (offer, index) =>
            html`<button class="link" type="button" aria-pressed=${index === this.question ? "true" : "false"} @click=${() => this.#ask(index)}>${offer.question}</button>`,
        )}</div>
        <button class="btn" type="button" @click=${this.#turn}>${this.silent ? "Play" : "Stop"}</button>
      </div>
      ${remarks.map((remark) => html`<p class="cap">${remark}</p>`)}
      <audition-ribbon .score=${this.score} .range=${this.range} .names=${versions.map(({ version }) => version.name)}></audition-ribbon>
      <div class="switch" role="group" aria-label="Versions">${versions.map(
        ({ version }, index) =>
          html`<button class="btn" type="button" aria-pressed=${index === this.asked ? "true" : "false"} @click=${() => this.#choose(index)}>${index + 1} ${version.name}</button>`,
      )}</div>
      <div class="columns">${versions.map((seen, index) => this.#column(seen, index))}</div>
      <div class="foot">${this.#sliders(versions)}
        <button class="btn main" type="button" @click=${this.#use}>Use “${versions[this.asked]?.version.name ?? ""}”</button></div>
      <p class="cap">Roughness is sensory dissonance against all that sounds beside the note, from synthetic spectra: compare the numbers with one another. Start headphones low.</p>`;
  }

  #column(seen: SeenVersion, index: number) {
    const picture = pictureOf(seen, this.at, this.range, PICTURE);
    return auditionColumn(
      seen,
      this.#setupOf(seen),
      picture === null ? null : snippetElement(picture, `The part as ${seen.version.name} has it`),
      {
        index,
        isHeard: index === this.heard && !this.silent,
        isAsked: index === this.asked,
        isSilent: this.silent,
        company: this.company,
        choose: () => this.#choose(index),
      },
    );
  }

  /** The cross-fingering that is compared, as it answers on this chanter: set while it loops. */
  #sliders(versions: readonly SeenVersion[]) {
    const note = versions.flatMap(({ version }) => version.notes).find(isCrossFingered);
    const setup = this.draft ?? pipeLineOf(this.score, this.at.line)?.setup;
    const middle = this.#opened?.crossFingerings.find((one) => one.note === note)?.cents;
    if (note === undefined || setup === undefined || middle === undefined) return html`<span class="sliders"></span>`;
    return crossFingeringSliders(setup, note, middle, { moved: this.#setWhileHeld, letGo: this.#keepSetting });
  }

  get #dialog(): HTMLDialogElement {
    return this.renderRoot.querySelector("dialog") as HTMLDialogElement;
  }

  get #ribbon(): AuditionRibbon | null {
    return this.renderRoot.querySelector("audition-ribbon");
  }

  /** The sketch with the setup as the sliders have it. */
  get #draftScore(): Score {
    const { draft, score, at } = this;
    if (draft === null) return score;
    return {
      ...score,
      lines: score.lines.map((line) => (line.id === at.line && line.kind === "pipes" ? { ...line, setup: draft } : line)),
    };
  }

  #kept: { readonly key: readonly unknown[]; readonly versions: readonly SeenVersion[] } | null = null;

  /** Worked out again only when something they depend on is another. */
  get #versions(): readonly SeenVersion[] {
    const key = [this.score, this.at, this.question, this.company, this.blend, this.draft];
    if (this.#kept === null || key.some((one, index) => one !== this.#kept?.key[index])) {
      this.#kept = { key, versions: seenVersions(this.#draftScore, this.at, this.question, this.company, this.blend) };
    }
    return this.#kept.versions;
  }

  #setupOf({ score }: SeenVersion): PipeSetup {
    const setup = pipeLineOf(score, this.at.line)?.setup;
    if (setup === undefined) throw new RangeError(`There is no pipe line ${this.at.line}.`);
    return setup;
  }

  protected override willUpdate(changed: PropertyValues): void {
    if (changed.has("score") && this.open) this.draft = null;
  }

  async #begin(): Promise<void> {
    const heard = this.#versions[this.asked]?.heard;
    if (heard === undefined) return;
    this.heard = this.asked;
    this.silent = false;
    this.#ribbon?.begin(this.asked);
    await this.sound?.begin(heard, this.range);
  }

  #choose(index: number): void {
    const version = this.#versions[index];
    if (version === undefined || (index === this.asked && !this.silent)) return;
    this.asked = index;
    if (this.silent) {
      void this.#begin();
      return;
    }
    this.#ribbon?.ask(index, this.sound?.hear(version.heard, "beat") ?? null);
  }

  readonly #turn = (): void => {
    if (this.silent) void this.#begin();
    else {
      this.silent = true;
      this.sound?.stop();
    }
  };

  #ask(question: number): void {
    this.question = question;
    this.asked = 0;
    void this.updateComplete.then(() => this.#begin());
  }

  #accompany(company: AuditionCompany): void {
    this.company = company;
    this.#hearAgain("beat");
  }

  #resize(by: number): void {
    this.range = { ...this.range, last: this.range.last + by };
    void this.updateComplete.then(() => this.#begin());
  }

  readonly #setWhileHeld = (setup: PipeSetup): void => {
    this.draft = setup;
    this.#hearAgain("soon");
  };

  #hearAgain(when: "beat" | "soon"): void {
    const version = this.#versions[this.asked];
    if (version !== undefined) this.sound?.hear(version.heard, when);
  }

  /** What the sliders were left at is kept in the setup: one step for each time a slider is let go. */
  readonly #keepSetting = (): void => {
    if (this.draft === null) return;
    this.#tell([{ kind: "setup", line: this.at.line, setup: this.draft }], "how the cross-fingering answers");
  };

  readonly #use = (): void => {
    const version = this.#versions[this.asked]?.version;
    if (version === undefined) return;
    if (version.edits.length > 0) this.#tell(version.edits, version.name.toLowerCase());
    this.hide();
  };

  #tell(edits: readonly Edit[], label: string): void {
    this.dispatchEvent(new CustomEvent("audition-kept", { detail: { edits, label } }) satisfies AuditionKeptEvent);
  }

  readonly #closed = (): void => {
    this.open = false;
    this.dispatchEvent(new CustomEvent("audition-left"));
  };

  readonly #key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || !/^[1-9]$/.test(event.key)) return;
    event.preventDefault();
    this.#choose(Number(event.key) - 1);
  };
}

customElements.define("audition-view", AuditionView);

declare global {
  interface HTMLElementTagNameMap {
    "audition-view": AuditionView;
  }
}
