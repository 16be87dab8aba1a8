import { html, LitElement, nothing } from "lit";
import type { Paper } from "../../src/engraving/page-drawing.ts";
import { plainFileName, revisedFileName } from "../../src/exchange/file-names.ts";
import { type Handout, type HandoutKind, handedFileName, handoutKindsFor, handoutOf } from "../../src/exchange/handouts.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { handOutFile, saveSketchFile } from "../session/sketch-file.ts";
import { busyLine } from "../shared/busy-styles.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { handOverStyles } from "./hand-over-styles.ts";
import { type Busy, PdfWork, type PdfWorkEnd } from "./pdf-work.ts";

/** What the kinds of handout are called in the sentence. */
const KIND_WORDS: Readonly<Record<HandoutKind, string>> = {
  part: "The part",
  learner: "The learner’s part",
  charts: "The chart page",
};

const MUSICXML = "application/vnd.recordare.musicxml+xml";

/**
 * The room in which a part becomes paper or a file: the pages are seen as they will be printed, with what can be done with
 * them above.
 */
export class HandOver extends LitElement {
  static override properties = {
    score: { attribute: false },
    line: { state: true },
    kind: { state: true },
    paper: { state: true },
    chords: { state: true },
    busy: { state: true },
    said: { state: true },
    open: { state: true },
  };

  declare score: Score;
  declare private line: LineId;
  declare private kind: HandoutKind;
  declare private paper: Paper;
  declare private chords: boolean;
  declare private busy: Busy | null;
  /** What was done last, for the eye and the screen reader. */
  declare private said: string;
  declare private open: boolean;
  readonly #pdf = new PdfWork({
    busy: (busy) => {
      this.busy = busy;
    },
    made: (name, bytes) => this.#out(name, bytes, "application/pdf"),
  });
  /** What was pressed to have PDF made; gets the keys back when the work is stopped. */
  #pressed: HTMLElement | null = null;

  constructor() {
    super();
    this.line = "";
    this.kind = "part";
    // Letter where it is the usual paper; the choice stands in the sentence.
    this.paper = /-(US|CA|MX|PH)$/i.test(navigator.language) ? "letter" : "a4";
    this.chords = false;
    this.busy = null;
    this.said = "";
    this.open = false;
  }

  static override styles = [controls, focusRing, busyLine, handOverStyles];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#pdf.close();
  }

  override render() {
    return html`<dialog aria-labelledby="head" @close=${this.#closed}>${this.open ? this.#content() : nothing}</dialog>`;
  }

  #content() {
    const { label, pages } = this.#handout;
    return html`
      <header>
        <div class="head">
          <h2 id="head">Hand over</h2>
          <button class="btn" type="button" @click=${this.hide}>Back to the sketch</button>
        </div>
        ${this.#sentence()}
        <div class="acts">
          <button class="btn main" type="button" @click=${this.#print}>Print</button>
          <button class="link" type="button" @click=${this.#partPdf}>Part as PDF</button>
          <button class="link" type="button" @click=${this.#svg}>Pages as SVG</button>
          <button class="link" type="button" @click=${this.#musicxml}>Part as MusicXML</button>
        </div>
        <div class="acts">
          <span class="cap">Everybody:</span>
          <button class="link" type="button" @click=${this.#allPdf}>All parts as PDF</button>
          <button class="link" type="button" @click=${this.#scoreMusicxml}>All parts as MusicXML</button>
          <button class="link" type="button" @click=${this.#sketch}>The sketch itself</button>
        </div>
        <slot name="sound"></slot>
        <p class="cap">Performing or recording a cover needs the rights holder’s permission or a licence under local law. Ninefold cannot give it.</p>
        ${this.busy === null ? nothing : this.#busyLine(this.busy)}
        <p class=${this.busy === null ? "said" : "said busy-now"} role="status">${this.said}</p>
      </header>
      <div class="pages" tabindex="0" role="region" aria-label="The pages as they print">
        <print-pages .pages=${pages} .label=${label}></print-pages>
      </div>`;
  }

  /** What is handed over, whose it is, on which paper. */
  #sentence() {
    const line = this.#chosenLine;
    const kinds = handoutKindsFor(line);
    return html`
      <div class="sentence">
        ${
          kinds.length === 1
            ? html`<span>The part</span>`
            : html`<select aria-label="What" @change=${this.#kindChosen}>
                ${kinds.map((kind) => html`<option value=${kind} ?selected=${kind === this.#handout.kind}>${KIND_WORDS[kind]}</option>`)}
              </select>`
        }
        <label for="line">of</label>
        <select id="line" aria-label="Whose" @change=${this.#lineChosen}>
          ${this.score.lines.map((one) => html`<option value=${one.id} ?selected=${one.id === line.id}>${one.name}</option>`)}
        </select>
        ${
          line.kind === "pipes" && this.#handout.kind !== "charts"
            ? html`<select aria-label="Chords" @change=${this.#chordsChosen}>
                <option value="without" ?selected=${!this.chords}>without chords</option>
                <option value="with" ?selected=${this.chords}>with the band’s chords</option>
              </select>`
            : nothing
        }
        <label for="paper">on</label>
        <select id="paper" aria-label="Paper" @change=${this.#paperChosen}>
          <option value="a4" ?selected=${this.paper === "a4"}>A4</option>
          <option value="letter" ?selected=${this.paper === "letter"}>Letter</option>
        </select>
        <span>paper, revision ${this.score.revision}.</span>
      </div>`;
  }

  #busyLine({ words, share }: Busy) {
    return html`
      <div class="busy">
        <span id="busy">${words}</span>
        <button class="link" type="button" @click=${this.#stop}>Stop</button>
        <progress aria-labelledby="busy" max="1" .value=${share}></progress>
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

  get #handout(): Handout {
    const line = this.#chosenLine;
    const kind = handoutKindsFor(line).includes(this.kind) ? this.kind : "part";
    return handoutOf(this.score, line, kind, { paper: this.paper, chords: this.chords });
  }

  readonly #closed = (): void => {
    this.open = false;
    this.#pdf.close();
    this.dispatchEvent(new CustomEvent("hand-over-closed"));
  };

  readonly #kindChosen = (event: Event): void => {
    this.kind = (event.target as HTMLSelectElement).value as HandoutKind;
  };

  readonly #lineChosen = (event: Event): void => {
    this.line = (event.target as HTMLSelectElement).value;
  };

  readonly #chordsChosen = (event: Event): void => {
    this.chords = (event.target as HTMLSelectElement).value === "with";
  };

  readonly #paperChosen = (event: Event): void => {
    this.paper = (event.target as HTMLSelectElement).value as Paper;
  };

  readonly #print = (): void => {
    print();
  };

  readonly #partPdf = (event: Event): void => {
    void this.#makePdf(event, [this.#handout]);
  };

  /** Everybody's part, in score order; for the pipers the learner's part in its place, or the chart page after it, where that is chosen. */
  readonly #allPdf = (event: Event): void => {
    const { paper, chords, kind } = this;
    const kindsFor = (line: Line): readonly HandoutKind[] => {
      if (kind === "part" || !handoutKindsFor(line).includes(kind)) return ["part"];
      return kind === "charts" ? ["part", "charts"] : [kind];
    };
    const handouts = this.score.lines.flatMap((line) => kindsFor(line).map((one) => handoutOf(this.score, line, one, { paper, chords })));
    void this.#makePdf(event, handouts);
  };

  async #makePdf(event: Event, handouts: readonly Handout[]): Promise<void> {
    this.#pressed = event.currentTarget as HTMLElement;
    this.said = "";
    const end = await this.#pdf.make(this.score, handouts);
    // Work that other work has taken the place of has nothing more to say.
    if (!this.#pdf.isRunning) this.said = endInWords(end, handouts);
  }

  readonly #stop = (): void => {
    this.#pdf.stop();
    this.#pressed?.focus();
  };

  readonly #svg = async (): Promise<void> => {
    const { svgOfEachPage } = await import("../../src/exchange/svg.ts");
    const { fileName, label, pages } = this.#handout;
    const files = await svgOfEachPage(pages, `${this.score.title}, ${label}`);
    for (const [index, text] of files.entries()) {
      this.#out(`${fileName}${files.length > 1 ? `, page ${index + 1} of ${files.length}` : ""}.svg`, text, "image/svg+xml");
    }
  };

  readonly #musicxml = async (): Promise<void> => {
    const { musicxmlOfPart } = await import("../../src/exchange/musicxml-score.ts");
    const { kind, fileName } = this.#handout;
    // A chart page has no music: the part it belongs to is handed out.
    const name = kind === "charts" ? handedFileName(this.score, this.#chosenLine) : fileName;
    const options = { ...today(), charts: kind === "learner" ? "every-note" : "cross-fingered" } as const;
    this.#out(`${name}.musicxml`, musicxmlOfPart(this.score, this.#chosenLine, options), MUSICXML);
    if (kind === "charts") this.said = `${name}.musicxml is handed to the browser to save: the part, since a chart page has no music.`;
  };

  readonly #scoreMusicxml = async (): Promise<void> => {
    const { musicxmlOfScore } = await import("../../src/exchange/musicxml-score.ts");
    const name = revisedFileName(`${plainFileName(this.score.title)} - all parts`, null, this.score.revision);
    this.#out(`${name}.musicxml`, musicxmlOfScore(this.score, today()), MUSICXML);
  };

  readonly #sketch = (): void => {
    saveSketchFile(this.score);
    this.said = "The sketch is handed to the browser to save.";
  };

  #out(name: string, content: BlobPart, type: string): void {
    handOutFile(name, content, type);
    this.said = `${name} is handed to the browser to save.`;
  }
}

/** What became of some PDF files, in words. */
function endInWords(end: PdfWorkEnd, handouts: readonly Handout[]): string {
  const count = handouts.length;
  if (end.kind === "failed") return `No PDF was made: ${end.message} Printing still works, and can save as PDF.`;
  if (end.kind === "stopped")
    return end.made === 0 ? "Stopped. Nothing was handed out." : `Stopped after ${end.made} of ${count} PDF files.`;
  const [first] = handouts;
  const done = count === 1 && first !== undefined ? `${first.fileName}.pdf is` : `${count} PDF files are`;
  const handed = `${done} handed to the browser to save.`;
  if (end.without.length === 0) return handed;
  return `${handed} Our fonts do not have ${end.without.join(" ")}: the PDF shows the number of each. Printing takes them from this device.`;
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
