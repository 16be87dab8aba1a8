import { css, html, LitElement } from "lit";
import { barNumber } from "../../src/score/bar-number.ts";
import { chordsFromText, textOfChords } from "../../src/score/chord-text.ts";
import type { BarRange, Edit } from "../../src/score/edit.ts";
import type { Chord, Frame } from "../../src/score/frame.ts";
import type { Score } from "../../src/score/score.ts";
import { editsAsked } from "../shared/edits-asked.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { closePanel, panel } from "./panel-styles.ts";

/** What a tune is usually called by; anything else may be typed. */
const TUNE_TYPES = ["March", "Strathspey", "Reel", "Jig", "Hornpipe", "Slow air", "Song"];

/** What is true of a bar (or some bars) whoever plays: section, tune, chords, repeats, endings; and bars put in or taken out. */
export class BarPanel extends LitElement {
  static override properties = { score: { attribute: false }, chosen: { attribute: false }, refusal: { state: true } };

  declare score: Score;
  declare chosen: BarRange;
  declare private refusal: string;

  constructor() {
    super();
    this.refusal = "";
  }

  static override styles = [
    controls,
    focusRing,
    panel,
    css`
      .chords {
        inline-size: 100%;
      }
      .tick {
        display: flex;
        gap: 8px;
        align-items: center;
      }
      summary {
        font: 400 15px/28px var(--serif);
        cursor: pointer;
      }
      .tune {
        display: grid;
        gap: 16px;
        padding-block: 8px;
      }
      @media (max-width: 599px), (pointer: coarse) {
        summary {
          line-height: 44px;
        }
      }
    `,
  ];

  override render() {
    const { first, last } = this.chosen;
    const frame = this.score.frames[first];
    if (frame === undefined) return null;
    const frames = this.score.frames.slice(first, last + 1);
    const repeated = frames[0]?.repeatStart === true && frames.at(-1)?.repeatEnd === true;
    return html`<form @submit=${this.#set}>
      <div class="row">
        <label class="field">A section begins at bar ${barNumber(this.score, first)}
          <input type="text" name="section" list="names" maxlength="60" placeholder="Verse, Chorus…" .value=${frame.section?.name ?? ""} autocomplete="off" />
          <datalist id="names">${["Intro", "Verse", "Chorus", "Middle", "Solo", "End"].map((name) => html`<option value=${name}></option>`)}</datalist>
        </label>
        <label class="field">Letter <input type="text" name="letter" maxlength="3" size="3" .value=${frame.section?.letter ?? ""} autocomplete="off" /></label>
      </div>
      <details ?open=${frame.tune !== null}>
        <summary>A tune of a medley begins here</summary>
        <div class="tune">
          <label class="field">Its title, or nothing where the tune goes on
            <input type="text" name="tune" maxlength="200" .value=${frame.tune?.title ?? ""} autocomplete="off" />
          </label>
          <div class="row">
            <label class="field">Type
              <input type="text" name="tune-type" list="types" maxlength="60" placeholder="March, Reel…" .value=${frame.tune?.tuneType ?? ""} autocomplete="off" />
              <datalist id="types">${TUNE_TYPES.map((name) => html`<option value=${name}></option>`)}</datalist>
            </label>
            <label class="field">Composer <input type="text" name="tune-composer" maxlength="200" .value=${frame.tune?.composer ?? ""} autocomplete="off" /></label>
          </div>
        </div>
      </details>
      <label class="field">Chords, at concert pitch; a bar line between bars, a dot for a beat held
        <input class="chords" type="text" name="chords" .value=${textOfChords(frames)} autocomplete="off" aria-describedby="why" placeholder="E . A . | C♯m" />
      </label>
      <p class="say" id="why" role="status">${this.refusal}</p>
      <label class="tick"><input type="checkbox" name="repeat" .checked=${repeated} /> Repeat ${first === last ? "this bar" : "these bars"}</label>
      <label class="field">Ending
        <select name="ending">
          ${([null, 1, 2] as const).map((ending) => html`<option value=${ending ?? 0} ?selected=${ending === frame.ending}>${endingInWords(ending)}</option>`)}
        </select>
      </label>
      <div class="acts">
        <button class="btn main" type="submit">Set</button>
        <button class="link" type="button" @click=${this.#insert}>Put a bar in before</button>
        <button class="link" type="button" @click=${this.#remove}>Take ${first === last ? "this bar" : "these bars"} out</button>
      </div>
    </form>`;
  }

  readonly #set = (event: SubmitEvent): void => {
    event.preventDefault();
    const { first, last } = this.chosen;
    const frames = this.score.frames.slice(first, last + 1);
    const fields = new FormData(event.target as HTMLFormElement);
    const text = (name: string) => String(fields.get(name) ?? "").trim();
    const chords = chordsFromText(text("chords"), frames);
    if (!chords.ok) {
      this.refusal = chords.reason;
      return;
    }
    if (text("tune") === "" && (text("tune-type") !== "" || text("tune-composer") !== "")) {
      this.refusal = "A tune needs a title.";
      return;
    }
    this.refusal = "";
    const edits = [
      ...sectionEdit(frames[0], first, text("section"), text("letter")),
      ...tuneEdit(frames[0], first, text("tune"), text("tune-type"), text("tune-composer")),
      ...chordEdits(frames, first, chords.value),
      ...repeatEdit(frames, this.chosen, fields.get("repeat") !== null),
      ...endingEdit(frames[0], this.chosen, Number(fields.get("ending"))),
    ];
    if (edits.length > 0) this.dispatchEvent(editsAsked("the bar’s facts", ...edits));
    closePanel(this);
  };

  readonly #insert = (): void => {
    this.dispatchEvent(editsAsked("a bar put in", { kind: "insert-bars", before: this.chosen.first, count: 1 }));
    closePanel(this);
  };

  readonly #remove = (): void => {
    this.dispatchEvent(editsAsked("bars taken out", { kind: "remove-bars", range: this.chosen }));
    closePanel(this);
  };
}

function endingInWords(ending: 1 | 2 | null): string {
  if (ending === null) return "none";
  return ending === 1 ? "first time" : "second time";
}

function sectionEdit(frame: Frame | undefined, bar: number, name: string, letter: string): readonly Edit[] {
  if (frame === undefined || (name === (frame.section?.name ?? "") && letter === (frame.section?.letter ?? ""))) return [];
  return [{ kind: "section", bar, section: name === "" && letter === "" ? null : { name, letter } }];
}

function tuneEdit(frame: Frame | undefined, bar: number, title: string, tuneType: string, composer: string): readonly Edit[] {
  const { tune } = frame ?? { tune: null };
  if (title === (tune?.title ?? "") && tuneType === (tune?.tuneType ?? "") && composer === (tune?.composer ?? "")) return [];
  return [{ kind: "tune", bar, tune: title === "" ? null : { title, tuneType, composer } }];
}

function chordEdits(frames: readonly Frame[], first: number, chords: readonly (readonly Chord[])[]): readonly Edit[] {
  return chords.flatMap((inBar, index) =>
    JSON.stringify(inBar) === JSON.stringify(frames[index]?.chords) ? [] : [{ kind: "chords", bar: first + index, chords: inBar } as const],
  );
}

function repeatEdit(frames: readonly Frame[], range: BarRange, on: boolean): readonly Edit[] {
  const was = frames[0]?.repeatStart === true && frames.at(-1)?.repeatEnd === true;
  return was === on ? [] : [{ kind: "repeat", range, on }];
}

function endingEdit(frame: Frame | undefined, range: BarRange, chosen: number): readonly Edit[] {
  const ending = chosen === 1 || chosen === 2 ? chosen : null;
  return frame === undefined || frame.ending === ending ? [] : [{ kind: "ending", range, ending }];
}

customElements.define("bar-panel", BarPanel);
