import { css, html, LitElement, nothing } from "lit";
import { plainFileName } from "../../src/exchange/file-names.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { fileNameOf, handOutFile, saveSketchFile } from "../session/sketch-file.ts";
import { controls, focusRing } from "../shared/styles.ts";

/** Which paper pages are cut for. */
type Paper = "a4" | "letter";

/**
 * The room in which a part becomes paper or a file: the pages are seen as they will be printed, with what can be done with
 * them above.
 */
export class HandOver extends LitElement {
  static override properties = {
    score: { attribute: false },
    line: { state: true },
    paper: { state: true },
    said: { state: true },
    open: { state: true },
  };

  declare score: Score;
  declare private line: LineId;
  declare private paper: Paper;
  /** What was done last, for the eye and the screen reader. */
  declare private said: string;
  declare private open: boolean;

  constructor() {
    super();
    this.line = "";
    // Letter where it is the usual paper; the choice stands in the sentence.
    this.paper = /-(US|CA|MX|PH)$/i.test(navigator.language) ? "letter" : "a4";
    this.said = "";
    this.open = false;
  }

  static override styles = [
    controls,
    focusRing,
    css`
      dialog {
        inline-size: min(1040px, 100vw - 32px);
        block-size: calc(100dvh - 32px);
        max-block-size: none;
        padding: 0;
        border: 0;
        border-radius: var(--r-sheet);
        background: var(--ground);
        color: var(--ink);
        box-shadow: var(--shadow-lift);
        font: 400 15px/24px var(--serif);
        grid-template-rows: auto minmax(0, 1fr);
      }
      dialog[open] {
        display: grid;
      }
      dialog::backdrop {
        background: color-mix(in srgb, var(--ground) 70%, transparent);
      }
      header {
        padding: 24px 24px 16px;
        display: grid;
        gap: 12px;
      }
      .head {
        display: flex;
        justify-content: space-between;
        align-items: baseline;
        gap: 16px;
      }
      h2 {
        font: 600 22px/32px var(--serif);
      }
      .sentence {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px;
      }
      .acts {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 24px;
        align-items: center;
      }
      .pages {
        overflow: auto;
        padding: 0 24px 24px;
      }
      .said {
        color: var(--ink-2);
        min-block-size: 24px;
      }
      @media (max-width: 599px) {
        dialog {
          inline-size: 100vw;
          max-inline-size: none;
          block-size: 100dvh;
          margin: 0;
        }
        header {
          padding: 16px;
        }
        .pages {
          padding: 0 8px 16px;
        }
      }
      @media print {
        dialog,
        dialog[open] {
          position: static;
          display: block;
          inline-size: auto;
          block-size: auto;
          margin: 0;
          overflow: visible;
          background: none;
          box-shadow: none;
        }
        header {
          display: none;
        }
        .pages {
          overflow: visible;
          padding: 0;
        }
      }
    `,
  ];

  override render() {
    return html`<dialog aria-labelledby="head" @close=${this.#closed}>${this.open ? this.#content() : nothing}</dialog>`;
  }

  #content() {
    const line = this.#chosenLine;
    return html`
      <header>
        <div class="head">
          <h2 id="head">Hand over</h2>
          <button class="btn" type="button" @click=${this.hide}>Back to the sketch</button>
        </div>
        <div class="sentence">
          <label for="line">The part of</label>
          <select id="line" @change=${this.#lineChosen}>
            ${this.score.lines.map((one) => html`<option value=${one.id} ?selected=${one.id === line.id}>${one.name}</option>`)}
          </select>
          <label for="paper">on</label>
          <select id="paper" @change=${this.#paperChosen}>
            <option value="a4" ?selected=${this.paper === "a4"}>A4</option>
            <option value="letter" ?selected=${this.paper === "letter"}>Letter</option>
          </select>
          <span>paper, revision ${this.score.revision}.</span>
        </div>
        <div class="acts">
          <button class="btn main" type="button" @click=${this.#print}>Print</button>
          <button class="link" type="button" @click=${this.#svg}>Pages as SVG</button>
          <button class="link" type="button" @click=${this.#musicxml}>Part as MusicXML</button>
          <button class="link" type="button" @click=${this.#scoreMusicxml}>All parts as MusicXML</button>
          <button class="link" type="button" @click=${this.#sketch}>The sketch itself</button>
        </div>
        <p class="cap">Performing or recording a cover needs the rights holder’s permission or a licence under local law. Ninefold cannot give it.</p>
        <p class="said" role="status">${this.said}</p>
      </header>
      <div class="pages" tabindex="0" role="region" aria-label="The pages as they print">
        <print-pages .score=${this.score} .line=${line.id} .paper=${this.paper}></print-pages>
      </div>`;
  }

  /** Opens the room on a part; without a name, on the first. */
  async show(line: LineId = ""): Promise<void> {
    if (line !== "") this.line = line;
    this.open = true;
    this.said = "";
    await this.updateComplete;
    this.#dialog.showModal();
  }

  readonly hide = (): void => {
    this.#dialog.close();
  };

  get #dialog(): HTMLDialogElement {
    return this.renderRoot.querySelector("dialog") as HTMLDialogElement;
  }

  get #chosenLine(): Line {
    const found = this.score.lines.find((line) => line.id === this.line) ?? this.score.lines[0];
    if (found === undefined) throw new RangeError("A sketch has at least one line.");
    return found;
  }

  readonly #closed = (): void => {
    this.open = false;
    this.dispatchEvent(new CustomEvent("hand-over-closed"));
  };

  readonly #lineChosen = (event: Event): void => {
    this.line = (event.target as HTMLSelectElement).value;
  };

  readonly #paperChosen = (event: Event): void => {
    this.paper = (event.target as HTMLSelectElement).value as Paper;
  };

  readonly #print = (): void => {
    print();
  };

  readonly #svg = async (): Promise<void> => {
    const { svgOfPart } = await import("../../src/exchange/svg.ts");
    const line = this.#chosenLine;
    const files = svgOfPart(this.score, line.id, { paper: this.paper });
    for (const [index, text] of files.entries()) {
      this.#out(`${line.name}${files.length > 1 ? `, page ${index + 1} of ${files.length}` : ""}.svg`, text, "image/svg+xml");
    }
  };

  readonly #musicxml = async (): Promise<void> => {
    const { musicxmlOfPart } = await import("../../src/exchange/musicxml-score.ts");
    const line = this.#chosenLine;
    this.#out(`${line.name}.musicxml`, musicxmlOfPart(this.score, line, today()), "application/vnd.recordare.musicxml+xml");
  };

  readonly #scoreMusicxml = async (): Promise<void> => {
    const { musicxmlOfScore } = await import("../../src/exchange/musicxml-score.ts");
    this.#out("all parts.musicxml", musicxmlOfScore(this.score, today()), "application/vnd.recordare.musicxml+xml");
  };

  readonly #sketch = (): void => {
    saveSketchFile(this.score);
    this.said = "The sketch is handed to the browser to save.";
  };

  #out(rest: string, content: string, type: string): void {
    const dot = rest.lastIndexOf(".");
    const name = fileNameOf(this.score.title, ` - ${plainFileName(rest.slice(0, dot))}${rest.slice(dot)}`);
    handOutFile(name, content, type);
    this.said = `${name} is handed to the browser to save.`;
  }
}

/** The day it is, as MusicXML wants it. */
function today(): { readonly encodingDate: string } {
  return { encodingDate: new Date().toISOString().slice(0, 10) };
}

customElements.define("hand-over", HandOver);

declare global {
  interface HTMLElementTagNameMap {
    "hand-over": HandOver;
  }
}
