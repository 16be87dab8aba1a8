import { html, LitElement, nothing } from "lit";
import { repeat } from "lit/directives/repeat.js";
import type { Selection } from "../../src/editing/selection.ts";
import { screenWidths } from "../../src/engraving/screen-widths.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { Address } from "../../src/score/address.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import { check } from "../../src/score/check.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import type { Hertz } from "../../src/units/hertz.ts";
import type { Session } from "../session/session.ts";
import { saveSketchFile } from "../session/sketch-file.ts";
import type { SketchSummary } from "../session/sketch-store.ts";
import { messageOf, Workspace } from "../session/workspace.ts";
import type { EditsAskedEvent } from "../shared/edits-asked.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import { appStyles } from "./app-styles.ts";
import { chosenBars } from "./chosen-bars.ts";
import { EXAMPLES } from "./examples.ts";
import type { CureTakenEvent, FindingChosenEvent } from "./findings-list.ts";
import type { SketchAskedEvent } from "./sketch-shelf.ts";
import { SoundDesk } from "./sound-desk.ts";
import { isTheme, showTheme, THEMES, type Theme } from "./theme.ts";
import "../grid/form-ribbon.ts";
import "../grid/reading-line.ts";
import "../grid/scale-grid.ts";
import "../notation/part-sheet.ts";
import "../setup/players-line.ts";
import "../setup/setup-sentence.ts";
import "../setup/song-facts.ts";
import "../sound/blend-panel.ts";
import "../sound/transport-bar.ts";
import "./findings-list.ts";
import "./sketch-shelf.ts";

/** How long a refusal or an offer to undo stays on screen, in milliseconds. */
const TELLING = 6000;

/** Something to tell the user, with one offer at most. */
interface Telling {
  readonly words: string;
  readonly offer: { readonly label: string; readonly act: () => void } | null;
}

/**
 * The app: one sketch, its grid, its parts, its sound. It hands values down to the elements and takes what they ask for to the
 * session; it decides nothing about music.
 */
export class NinefoldApp extends LitElement {
  static override properties = {
    findings: { state: true },
    chosenFinding: { state: true },
    refusal: { state: true },
    telling: { state: true },
    onGrid: { state: true },
    view: { state: true },
    hand: { state: true },
    theme: { state: true },
    dropping: { state: true },
    shelf: { state: true },
    trouble: { state: true },
  };

  declare private findings: readonly Finding[];
  declare private chosenFinding: Finding | null;
  declare private refusal: string;
  declare private telling: Telling | null;
  /** The pipe line that the grid shows. */
  declare private onGrid: LineId;
  /** On a narrow page, what stands under the title: the grid, or one part. */
  declare private view: "grid" | LineId;
  /** The bar the hand was at last, for settings that speak of "this bar". */
  declare private hand: number;
  declare private theme: Theme;
  declare private dropping: boolean;
  declare private shelf: readonly SketchSummary[];
  declare private trouble: string;

  readonly #workspace = new Workspace(() => this.#workspaceChanged());
  readonly #sound = new SoundDesk(this, (words) => this.#tell(words));
  #session: Session | null = null;
  #unsubscribe: (() => void) | null = null;
  #tellingTimer: ReturnType<typeof setTimeout> | null = null;
  #refusalTimer: ReturnType<typeof setTimeout> | null = null;
  #checkTimer: ReturnType<typeof setTimeout> | null = null;
  #scrollLeft = 0;

  static override styles = [controls, focusRing, visuallyHidden, appStyles];

  constructor() {
    super();
    this.findings = [];
    this.chosenFinding = null;
    this.refusal = "";
    this.telling = null;
    this.onGrid = "";
    this.view = "grid";
    this.hand = 0;
    this.theme = "device";
    this.dropping = false;
    this.shelf = [];
    this.trouble = "";
  }

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener("visibilitychange", this.#leaving);
    addEventListener("pagehide", this.#leaving);
    addEventListener("keydown", this.#key);
    addEventListener("dragover", this.#dragged);
    addEventListener("dragleave", this.#dragLeft);
    addEventListener("drop", this.#dropped);
    void this.#start();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener("visibilitychange", this.#leaving);
    removeEventListener("pagehide", this.#leaving);
    removeEventListener("keydown", this.#key);
    removeEventListener("dragover", this.#dragged);
    removeEventListener("dragleave", this.#dragLeft);
    removeEventListener("drop", this.#dropped);
    this.#unsubscribe?.();
    this.#sound.stop();
  }

  async #start(): Promise<void> {
    const told = await this.#workspace.start(firstExample);
    if (told !== "") this.#tell(told);
    const theme = await this.#workspace.setting("theme");
    if (isTheme(theme)) this.#setTheme(theme);
  }

  override render() {
    const session = this.#session;
    if (session === null) return html`<header><span class="mark">Ninefold</span></header>`;
    const { score, selection } = session;
    const pipes = this.#pipesOnGrid(score);
    const chosen = chosenBars(score, selection, this.hand);
    return html`
      <header>
        <span class="mark">Ninefold</span>
        <div class="title">
          <h1>${score.title === "" ? "Untitled" : score.title}</h1>
          <song-facts .score=${score} .chosen=${chosen} @edits-asked=${this.#editsAsked}></song-facts>
        </div>
        <nav class="rooms" aria-label="Rooms">
          <button class="link" type="button" @click=${this.#showShelf}>Sketches</button>
          <button class="btn main" type="button" @click=${this.#handOver}>Hand over</button>
        </nav>
        <div class="setup-line">
          <setup-sentence .setup=${pipes.setup} .bandA=${score.bandA} @setup-changed=${this.#setupChanged} @band-a-changed=${this.#bandAChanged}></setup-sentence>
          ${this.#sound.transport(session)}
        </div>
      </header>
      ${this.#views(score)}
      <main class=${this.view === "grid" ? "shows-grid" : "shows-part"}>
        <section class="grid-sheet" aria-label="Scale grid">${this.#grid(session, pipes)}</section>
        <section class="desk" aria-label="Parts">
          ${repeat(
            score.lines,
            (line) => line.id,
            (line) => html`<part-sheet
              class=${this.view === line.id || (this.view === "grid" && line.id === this.onGrid) ? "near" : "far"}
              .score=${score}
              .line=${line.id}
              .widths=${screenWidths(score)}
              .selection=${selection}
              .findings=${this.findings}
              @note-chosen=${this.#noteChosen}
            ></part-sheet>`,
          )}
          <p class="players"><players-line .score=${score} .onGrid=${this.onGrid} @edits-asked=${this.#editsAsked} @line-chosen=${this.#lineChosen}></players-line></p>
        </section>
      </main>
      <footer>
        <findings-list
          .findings=${this.findings}
          .chosen=${this.chosenFinding}
          .barNames=${(bar: number) => String(barNumber(score, bar))}
          @finding-chosen=${this.#findingChosen}
          @cure-taken=${this.#cureTaken}
        ></findings-list>
        ${this.#sound.blend(session)}
      </footer>
      ${this.#smallPrint()}
      <sketch-shelf
        .sketches=${this.shelf}
        .current=${this.#workspace.sketch?.id ?? ""}
        .kept=${this.#workspace.keeps}
        .trouble=${this.trouble}
        @sketch-asked=${this.#sketchAsked}
        @sketch-removed=${this.#sketchRemoved}
        @save-asked=${this.#save}
      ></sketch-shelf>
      ${this.dropping ? html`<div class="drop">Let go to open this sketch</div>` : nothing}
      <div class="telling" role="status">${this.#toldWords()}</div>
    `;
  }

  #grid(session: Session, pipes: PipeLine) {
    const { score, selection } = session;
    const widths = screenWidths(score);
    return html`
      <form-ribbon .score=${score} .widths=${widths} @view-asked=${this.#viewAsked}></form-ribbon>
      <scale-grid
        .score=${score}
        .line=${pipes.id}
        .widths=${widths}
        .selection=${selection}
        .findings=${this.findings}
        @edits-asked=${this.#editsAsked}
        @selection-asked=${this.#selectionAsked}
        @view-moved=${this.#viewMoved}
        @row-touched=${this.#rowTouched}
        @row-released=${this.#rowReleased}
        @undo-asked=${this.#undo}
        @redo-asked=${this.#redo}
        @play-asked=${this.#sound.playAsked}
        @example-asked=${this.#showShelf}
      ></scale-grid>
      <reading-line
        .score=${score}
        .line=${pipes.id}
        .selection=${selection}
        .refusal=${this.refusal}
        .undoLabel=${session.undoLabel}
        .redoLabel=${session.redoLabel}
        @undo-asked=${this.#undo}
        @redo-asked=${this.#redo}
        @edits-asked=${this.#editsAsked}
      ></reading-line>`;
  }

  /** On a narrow page: which view is shown, as words. */
  #views(score: Score) {
    return html`<nav class="views" aria-label="Views">
      ${this.#viewWord("grid", "Grid")}${score.lines.map((line) => this.#viewWord(line.id, line.name))}
    </nav>`;
  }

  #viewWord(view: "grid" | LineId, words: string) {
    return html`<button class="link" type="button" aria-pressed=${this.view === view ? "true" : "false"} @click=${() => this.#show(view)}>${words}</button>`;
  }

  #smallPrint() {
    const state = this.#workspace.saveState;
    const words = !this.#workspace.keeps
      ? "This browser keeps nothing between visits. Save to a file."
      : state.kind === "failed"
        ? state.reason
        : state.kind === "saving"
          ? "Saving on this device"
          : "Saved on this device";
    return html`<p class="small">
      <span data-save=${state.kind}>${words}</span>
      <span>Revision ${this.#session?.score.revision}</span>
      <label>Seen <select .value=${this.theme} @change=${this.#themeChosen}>${THEMES.map(({ theme, words }) => html`<option value=${theme} ?selected=${theme === this.theme}>${words}</option>`)}</select></label>
      <span>Performing or recording a cover needs permission or a licence under local law. Local noise-at-work rules come first.</span>
    </p>`;
  }

  #toldWords() {
    if (this.telling === null) return nothing;
    const { words, offer } = this.telling;
    return html`<span>${words}</span>${offer === null ? nothing : html`<button class="link" type="button" @click=${offer.act}>${offer.label}</button>`}`;
  }

  #pipesOnGrid(score: Score): PipeLine {
    const pipes = score.lines.filter((line): line is PipeLine => line.kind === "pipes");
    const found = pipes.find((line) => line.id === this.onGrid) ?? pipes[0];
    if (found === undefined) throw new RangeError("A sketch has at least one pipe line.");
    return found;
  }

  // ---- the sketch ----

  #workspaceChanged(): void {
    const session = this.#workspace.sketch?.session ?? null;
    if (session !== null && session !== this.#session) this.#take(session);
    this.requestUpdate();
  }

  #take(session: Session): void {
    this.#unsubscribe?.();
    this.#session = session;
    this.#sound.take(session);
    this.onGrid = this.#pipesOnGrid(session.score).id;
    this.view = "grid";
    this.hand = 0;
    this.findings = check(session.score);
    this.chosenFinding = null;
    document.title = `${session.score.title === "" ? "Untitled" : session.score.title} - Ninefold`;
    this.#unsubscribe = session.subscribe((change) => {
      if (change === "moment") {
        this.#showMoment(session);
        return;
      }
      if (change === "score") this.#checkSoon(session);
      this.requestUpdate();
    });
  }

  /** The moment line moves with every frame while it plays, so it goes straight to the elements that draw it. */
  #showMoment(session: Session): void {
    for (const element of this.renderRoot.querySelectorAll<HTMLElement & { moment: unknown }>("scale-grid, part-sheet, transport-bar")) {
      element.moment = session.moment;
    }
  }

  /** Findings are not urgent: they wait until the edit is on the screen. */
  #checkSoon(session: Session): void {
    if (this.#checkTimer !== null) clearTimeout(this.#checkTimer);
    this.#checkTimer = setTimeout(() => {
      this.#checkTimer = null;
      if (session !== this.#session) return;
      this.findings = check(session.score);
      if (this.chosenFinding !== null && !this.findings.includes(this.chosenFinding)) this.chosenFinding = null;
    }, 60);
  }

  readonly #editsAsked = (event: EditsAskedEvent & { readonly detail: { readonly selection?: Selection } }): void => {
    event.stopPropagation();
    this.#apply(event.detail.edits, event.detail.label, event.detail.selection);
  };

  #apply(edits: readonly Edit[], label: string, selection?: Selection): void {
    const outcome = this.#session?.apply(edits, label, selection);
    if (outcome === undefined) return;
    if (outcome.ok) this.refusal = "";
    else this.#refuse(outcome.reason);
  }

  #refuse(reason: string): void {
    this.refusal = reason;
    if (this.#refusalTimer !== null) clearTimeout(this.#refusalTimer);
    this.#refusalTimer = setTimeout(() => {
      this.refusal = "";
    }, TELLING);
  }

  readonly #selectionAsked = (event: CustomEvent<{ readonly selection: Selection }>): void => {
    this.#session?.choose(event.detail.selection);
    const { selection } = event.detail;
    if (selection.kind === "note") this.hand = selection.at.bar;
    if (selection.kind === "stretch") this.hand = selection.from.bar;
  };

  readonly #noteChosen = (event: CustomEvent<{ readonly address: Address }>): void => {
    const { address } = event.detail;
    this.hand = address.bar;
    this.#session?.choose({ kind: "note", at: address });
    this.renderRoot.querySelector("scale-grid")?.reveal(address);
  };

  readonly #viewMoved = (
    event: CustomEvent<{ readonly scrollLeft: number; readonly firstBar: number; readonly lastBar: number }>,
  ): void => {
    this.#scrollLeft = event.detail.scrollLeft;
    for (const sheet of this.renderRoot.querySelectorAll("part-sheet")) sheet.scrolled = this.#scrollLeft;
    const ribbon = this.renderRoot.querySelector("form-ribbon");
    if (ribbon !== null) ribbon.view = event.detail;
    if (this.#session?.selection.kind === "nothing") this.hand = event.detail.firstBar;
  };

  readonly #viewAsked = (event: CustomEvent<{ readonly scrollLeft: number }>): void => {
    this.renderRoot.querySelector("scale-grid")?.scrollTo({ left: event.detail.scrollLeft });
  };

  readonly #setupChanged = (event: CustomEvent<{ readonly setup: PipeSetup }>): void => {
    const line = this.#session === null ? null : this.#pipesOnGrid(this.#session.score).id;
    if (line !== null) this.#apply([{ kind: "setup", line, setup: event.detail.setup }], "the pipe setup");
  };

  readonly #bandAChanged = (event: CustomEvent<{ readonly bandA: Hertz }>): void => {
    this.#apply([{ kind: "band-a", bandA: event.detail.bandA }], "the band’s A");
  };

  readonly #lineChosen = (event: CustomEvent<{ readonly line: LineId }>): void => {
    this.onGrid = event.detail.line;
  };

  readonly #rowTouched = (event: CustomEvent<{ readonly note: ChanterNote }>): void => {
    if (this.#session !== null) void this.#sound.touch(this.#pipesOnGrid(this.#session.score).setup, event.detail.note);
  };

  readonly #rowReleased = (): void => {
    this.#sound.release();
  };

  readonly #undo = (): void => {
    this.#session?.undo();
  };

  readonly #redo = (): void => {
    this.#session?.redo();
  };

  readonly #findingChosen = (event: FindingChosenEvent): void => {
    const { finding } = event.detail;
    this.chosenFinding = finding;
    this.#session?.choose({ kind: "note", at: finding.address });
    this.renderRoot.querySelector("scale-grid")?.reveal(finding.address);
  };

  readonly #cureTaken = (event: CureTakenEvent): void => {
    this.#apply(event.detail.edits, event.detail.label);
  };

  // ---- sketches and files ----

  readonly #showShelf = async (): Promise<void> => {
    this.trouble = "";
    this.shelf = await this.#workspace.list();
    await this.updateComplete;
    this.renderRoot.querySelector("sketch-shelf")?.show();
  };

  readonly #sketchAsked = async (event: SketchAskedEvent): Promise<void> => {
    const { detail } = event;
    try {
      this.#sound.stop();
      const told = await this.#open(detail);
      this.renderRoot.querySelector("sketch-shelf")?.hide();
      if (told !== "") this.#tell(told);
    } catch (error) {
      this.trouble =
        `${detail.kind === "file" ? `${detail.file.name} was not opened. ` : ""}${messageOf(error)}. Nothing was changed.`.replace(
          "..",
          ".",
        );
    }
  };

  async #open(asked: SketchAskedEvent["detail"]): Promise<string> {
    switch (asked.kind) {
      case "stored":
        return this.#workspace.openStored(asked.id);
      case "new":
        await this.#workspace.openNew();
        return "";
      case "file":
        await this.#workspace.openFile(asked.file);
        return "";
      case "example": {
        const example = EXAMPLES.find(({ name }) => name === asked.name);
        if (example !== undefined) await this.#workspace.openText(await example.load());
        return "";
      }
    }
  }

  readonly #sketchRemoved = async (event: CustomEvent<{ readonly id: string }>): Promise<void> => {
    const putBack = await this.#workspace.remove(event.detail.id);
    this.shelf = await this.#workspace.list();
    this.#tell("The sketch is removed.", {
      label: "Undo",
      act: async () => {
        await putBack();
        this.shelf = await this.#workspace.list();
        this.telling = null;
      },
    });
  };

  readonly #save = (): void => {
    if (this.#session !== null) saveSketchFile(this.#session.score);
  };

  readonly #handOver = async (): Promise<void> => {
    await import("../handover/hand-over.ts");
    const session = this.#session;
    if (session === null) return;
    const dialog = this.renderRoot.querySelector("hand-over") ?? this.renderRoot.appendChild(document.createElement("hand-over"));
    dialog.score = session.score;
    dialog.show();
  };

  readonly #leaving = (): void => {
    if (document.visibilityState === "hidden") void this.#workspace.flush();
  };

  readonly #dragged = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    this.dropping = true;
  };

  readonly #dragLeft = (event: DragEvent): void => {
    if (event.relatedTarget === null) this.dropping = false;
  };

  readonly #dropped = async (event: DragEvent): Promise<void> => {
    const file = event.dataTransfer?.files[0];
    if (file === undefined) return;
    event.preventDefault();
    this.dropping = false;
    try {
      await this.#workspace.openFile(file);
    } catch (error) {
      this.#tell(`${file.name} was not opened. ${messageOf(error)}. Nothing was changed.`);
    }
  };

  // ---- the page ----

  readonly #key = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || !(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const inField = event.composedPath().some((target) => target instanceof HTMLElement && target.matches("input, textarea, select"));
    if (key === "s") this.#save();
    else if (key === "p") void this.#handOver();
    else if (key === "z" && !inField) event.shiftKey ? this.#redo() : this.#undo();
    else if (key === "y" && !inField) this.#redo();
    else return;
    event.preventDefault();
  };

  readonly #themeChosen = (event: Event): void => {
    const theme = (event.target as HTMLSelectElement).value;
    if (!isTheme(theme)) return;
    this.#setTheme(theme);
    void this.#workspace.keepSetting("theme", theme);
  };

  #setTheme(theme: Theme): void {
    this.theme = theme;
    showTheme(theme);
  }

  #show(view: "grid" | LineId): void {
    this.view = view;
  }

  #tell(words: string, offer: Telling["offer"] = null): void {
    this.telling = { words, offer };
    if (this.#tellingTimer !== null) clearTimeout(this.#tellingTimer);
    this.#tellingTimer = setTimeout(() => {
      this.telling = null;
    }, TELLING);
  }
}

/** What a first visit opens. */
async function firstExample(): Promise<string> {
  const first = EXAMPLES[0];
  if (first === undefined) throw new RangeError("The app ships with no example.");
  return first.load();
}

customElements.define("ninefold-app", NinefoldApp);

declare global {
  interface HTMLElementTagNameMap {
    "ninefold-app": NinefoldApp;
  }
}
