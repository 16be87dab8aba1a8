import { html, LitElement, nothing } from "lit";
import { keyed } from "lit/directives/keyed.js";
import { repeat } from "lit/directives/repeat.js";
import { bandMoveOf, editsForSetup } from "../../src/editing/edits-for-setup.ts";
import type { Selection } from "../../src/editing/selection.ts";
import { screenWidths } from "../../src/engraving/screen-widths.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { Address } from "../../src/score/address.ts";
import type { BarRange, Edit } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import type { Hertz } from "../../src/units/hertz.ts";
import type { GridStep } from "../grid/grid-step.ts";
import type { GridView } from "../grid/grid-viewport.ts";
import type { Session } from "../session/session.ts";
import type { EditsAskedEvent } from "../shared/edits-asked.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import { appStyles } from "./app-styles.ts";
import { openAudition } from "./audition-desk.ts";
import { tellOfBandMove } from "./band-offer.ts";
import { chosenBars } from "./chosen-bars.ts";
import type { CureTakenEvent, FindingChosenEvent } from "./finding-events.ts";
import { UNCHECKED } from "./findings-list.ts";
import { FindingsWatch, type Found } from "./findings-watch.ts";
import { openHandOver } from "./hand-over-desk.ts";
import { LineDesk } from "./line-desk.ts";
import { firstCrossFingered, followed } from "./noted-places.ts";
import { SketchDesk } from "./sketch-desk.ts";
import type { ThemeChosenEvent } from "./small-print.ts";
import { SoundDesk } from "./sound-desk.ts";
import { isTheme, showTheme, type Theme } from "./theme.ts";
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
import "./small-print.ts";

/** How long a refusal stays on screen, in milliseconds. */
const REFUSAL_STAYS = 6000;

/**
 * The app: one sketch, its grid, its parts, its sound. It hands values down to the elements and takes what they ask for to the
 * session; it decides nothing about music.
 */
export class NinefoldApp extends LitElement {
  static override properties = {
    findings: { state: true },
    crossings: { state: true },
    chosenFinding: { state: true },
    refusal: { state: true },
    onGrid: { state: true },
    view: { state: true },
    unfolded: { state: true },
    step: { state: true },
    hand: { state: true },
    theme: { state: true },
  };

  declare private findings: readonly Finding[];
  declare private crossings: readonly Finding[];
  declare private chosenFinding: Finding | null;
  declare private refusal: string;
  /** The pipe line that the grid shows. */
  declare private onGrid: LineId;
  /** On a narrow page, what stands under the title: the grid, or one part. */
  declare private view: "grid" | LineId;
  /** On a phone: whether the song's facts and the setup are shown. */
  declare private unfolded: boolean;
  /** How finely time is drawn on the grid. */
  declare private step: GridStep;
  /** The bar the hand was at last, for settings that speak of "this bar". */
  declare private hand: number;
  declare private theme: Theme;

  readonly #desk = new SketchDesk(this, () => this.#sketchChanged());
  readonly #sound = new SoundDesk(this);
  readonly #lineDesk = new LineDesk(this, (address) => this.#reveal(address), this.#desk);
  readonly #watch = new FindingsWatch((found) => this.#showFindings(found));
  #session: Session | null = null;
  #unsubscribe: (() => void) | null = null;
  #refusalTimer: ReturnType<typeof setTimeout> | null = null;
  #scrollLeft = 0;
  #chosen: BarRange = { first: 0, last: 0 };

  static override styles = [controls, focusRing, visuallyHidden, appStyles];

  constructor() {
    super();
    this.findings = UNCHECKED;
    this.crossings = UNCHECKED;
    this.chosenFinding = null;
    this.refusal = "";
    this.onGrid = "";
    this.view = "grid";
    this.unfolded = false;
    this.step = "eighth";
    this.hand = 0;
    this.theme = "device";
  }

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener("keydown", this.#key);
    void this.#start();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener("keydown", this.#key);
    this.#unsubscribe?.();
    this.#sound.stop();
    this.#watch.stop();
  }

  async #start(): Promise<void> {
    const firstVisit = await this.#desk.start();
    if (firstVisit) await this.#showSomething();
    const theme = await this.#desk.workspace.setting("theme");
    if (isTheme(theme)) this.#setTheme(theme);
  }

  override render() {
    const session = this.#session;
    if (session === null) return html`<header><span class="mark">Ninefold</span></header>`;
    const { shown: score, selection } = session;
    const pipes = this.#pipesOnGrid(score);
    const chosen = this.#chosenBars(score, selection);
    return html`
      <header class=${this.unfolded ? "unfolded" : "folded"}>
        <span class="mark">Ninefold</span>
        <div class="title">
          <h1>${score.title === "" ? "Untitled" : score.title}</h1>
          <song-facts .score=${score} .chosen=${chosen} @edits-asked=${this.#editsAsked}></song-facts>
        </div>
        <nav class="rooms" aria-label="Rooms">
          <button class="link" type="button" @click=${this.#desk.show}>Sketches</button>
          <button class="link grace-line" type="button" aria-pressed=${this.#lineDesk.isOpen ? "true" : "false"} @click=${this.#graceLine}>Grace the line</button>
          <button class="link audition" type="button" @click=${this.#audition}>Audition</button>
          <button class="btn main" type="button" @click=${this.#handOver}>Hand over</button>
        </nav>
        <div class="setup-line">
          <setup-sentence .setup=${pipes.setup} .bandA=${score.bandA} .key=${score.frames[chosen.first]?.key} @setup-changed=${this.#setupChanged} @band-a-changed=${this.#bandAChanged}></setup-sentence>
          ${this.#sound.transport(session, this.hand)}
        </div>
      </header>
      ${this.#views(session)}
      <main class=${this.view === "grid" ? "shows-grid" : "shows-part"} @gracenotes-touched=${this.#sound.groupTouched} @gracenotes-released=${this.#sound.groupReleased} @audition-asked=${this.#audition}>
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
              .chosenFinding=${this.chosenFinding}
              .proposed=${this.#lineDesk.places(session, line.id)}
              @note-chosen=${this.#noteChosen}
            ></part-sheet>`,
          )}
        </section>
      </main>
      <footer>
        <findings-list
          .findings=${this.findings}
          .crossings=${this.crossings}
          .chosen=${this.chosenFinding}
          .score=${score}
          @finding-chosen=${this.#findingChosen}
          @cure-taken=${this.#cureTaken}
        ></findings-list>
        <div class="blend">
          ${this.#sound.blend(session)}
          <players-line .score=${score} .onGrid=${this.onGrid} @edits-asked=${this.#editsAsked} @line-chosen=${this.#lineChosen}></players-line>
        </div>
      </footer>
      <small-print
        .saveState=${this.#desk.workspace.saveState}
        .keeps=${this.#desk.workspace.keeps}
        .revision=${session.score.revision}
        .theme=${this.theme}
        @theme-chosen=${this.#themeChosen}
      ></small-print>
      ${this.#desk.render()}
    `;
  }

  /** Every sketch has a grid of its own, so that none begins where the hand was in another. */
  #grid(session: Session, pipes: PipeLine) {
    const { shown: score, selection } = session;
    const widths = screenWidths(score);
    return html`
      <form-ribbon .score=${score} .widths=${widths} @view-asked=${this.#viewAsked}></form-ribbon>
      ${keyed(
        session,
        html`<scale-grid
          .score=${score}
          .line=${pipes.id}
          .widths=${widths}
          .selection=${selection}
          .findings=${this.findings}
          .chosenFinding=${this.chosenFinding}
          .proposed=${this.#lineDesk.places(session, pipes.id)}
          .step=${this.step}
          @edits-asked=${this.#editsAsked}
          @gracing-asked=${this.#graceLine}
          @selection-asked=${this.#selectionAsked}
          @view-moved=${this.#viewMoved}
          @row-touched=${this.#rowTouched}
          @row-released=${this.#rowReleased}
          @undo-asked=${this.#undo}
          @redo-asked=${this.#redo}
          @play-asked=${this.#sound.turnAsked}
          @step-chosen=${this.#stepChosen}
          @example-asked=${this.#desk.show}
        ></scale-grid>`,
      )}
      ${this.#lineDesk.isOpen ? this.#lineDesk.render(this.refusal) : this.#reading(session, pipes)}`;
  }

  #reading(session: Session, pipes: PipeLine) {
    const { score, selection } = session;
    return html`<reading-line
        .score=${score}
        .line=${pipes.id}
        .selection=${selection}
        .refusal=${this.refusal}
        .step=${this.step}
        .undoLabel=${session.undoLabel}
        .redoLabel=${session.redoLabel}
        @undo-asked=${this.#undo}
        @redo-asked=${this.#redo}
        @step-chosen=${this.#stepChosen}
        @edits-asked=${this.#editsAsked}
        >${
          selection.kind === "note"
            ? nothing
            : html`<button slot="offer" class=${`link of-${selection.kind}`} type="button" @click=${this.#graceLine}>${selection.kind === "nothing" ? "Grace the line" : "Grace these notes"}</button>`
        }</reading-line
      >`;
  }

  /** On a narrow page: which view is shown, as words. */
  #views({ shown: score, undoLabel }: Session) {
    return html`<nav class="views" aria-label="Views">
      ${this.#viewWord("grid", "Grid")}${score.lines.map((line) => this.#viewWord(line.id, line.name))}
      <button class="link undo" type="button" ?disabled=${undoLabel === null} @click=${this.#undo}>Undo</button>
      <button class="link fold" type="button" aria-expanded=${this.unfolded ? "true" : "false"} @click=${this.#fold}>Song and setup</button>
    </nav>`;
  }

  #viewWord(view: "grid" | LineId, words: string) {
    const show = (): void => {
      this.view = view;
    };
    return html`<button class="link" type="button" aria-pressed=${this.view === view ? "true" : "false"} @click=${show}>${words}</button>`;
  }

  #pipesOnGrid(score: Score): PipeLine {
    const pipes = pipeLines(score);
    const found = pipes.find((line) => line.id === this.onGrid) ?? pipes[0];
    if (found === undefined) throw new RangeError("A sketch has at least one pipe line.");
    return found;
  }

  /** The same object while the bars are the same, so that what shows them is not drawn again. */
  #chosenBars(score: Score, selection: Selection): BarRange {
    const { first, last } = chosenBars(score, selection, this.hand);
    if (first !== this.#chosen.first || last !== this.#chosen.last) this.#chosen = { first, last };
    return this.#chosen;
  }

  /** A first visit begins where there is most to see: on the first note outside the nine. */
  async #showSomething(): Promise<void> {
    const session = this.#session;
    if (session === null) return;
    const address = firstCrossFingered(this.#pipesOnGrid(session.score));
    if (address === null) return;
    await this.updateComplete;
    session.choose({ kind: "note", at: address });
    this.#reveal(address);
  }

  #reveal(address: Address): void {
    this.hand = address.bar;
    this.renderRoot.querySelector("scale-grid")?.reveal(address);
  }

  // ---- the sketch ----

  #sketchChanged(): void {
    const session = this.#desk.workspace.sketch?.session ?? null;
    const foot = this.renderRoot?.querySelector("small-print");
    if (session !== null && session !== this.#session) {
      this.#take(session);
      this.requestUpdate();
    } else if (foot) foot.saveState = this.#desk.workspace.saveState;
  }

  #take(session: Session): void {
    this.#unsubscribe?.();
    this.#lineDesk.close();
    this.#session = session;
    this.#sound.take(session);
    this.onGrid = this.#pipesOnGrid(session.score).id;
    this.view = "grid";
    this.hand = 0;
    this.#watch.take(session);
    document.title = `${session.score.title === "" ? "Untitled" : session.score.title} - Ninefold`;
    this.#unsubscribe = session.subscribe((change) => {
      if (change === "moment") {
        this.#showMoment(session);
        return;
      }
      if (change === "score" || change === "proposal") this.#watch.changed();
      this.requestUpdate();
    });
  }

  /** The moment line moves with every frame while it plays, so it goes straight to the elements that draw it. */
  #showMoment(session: Session): void {
    for (const element of this.renderRoot.querySelectorAll<HTMLElement & { moment: unknown }>("scale-grid, part-sheet, transport-bar")) {
      element.moment = session.moment;
    }
  }

  #showFindings({ findings, crossings }: Found): void {
    this.findings = findings;
    this.crossings = crossings;
    const chosen = this.chosenFinding;
    if (chosen !== null && !findings.includes(chosen) && !crossings.includes(chosen)) this.chosenFinding = null;
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
    }, REFUSAL_STAYS);
  }

  readonly #selectionAsked = (event: CustomEvent<{ readonly selection: Selection }>): void => {
    this.#session?.choose(event.detail.selection);
    const { selection } = event.detail;
    if (selection.kind === "note") this.hand = selection.at.bar;
    if (selection.kind === "stretch") this.hand = selection.from.bar;
  };

  readonly #noteChosen = (event: CustomEvent<{ readonly address: Address }>): void => {
    if (this.#session === null) return;
    const address = followed(this.#session.shown, event.detail.address);
    this.#session.choose({ kind: "note", at: address });
    this.#reveal(address);
  };

  readonly #viewMoved = (event: CustomEvent<GridView>): void => {
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
    const session = this.#session;
    if (session === null) return;
    const before = session.score;
    const edits = editsForSetup(before, this.#pipesOnGrid(before).id, event.detail.setup);
    this.#apply(edits, "the pipe setup");
    const move = bandMoveOf(edits);
    if (move !== null && session.score !== before) tellOfBandMove(this.#desk, session, move, before);
  };

  readonly #bandAChanged = (event: CustomEvent<{ readonly bandA: Hertz }>): void => {
    this.#apply([{ kind: "band-a", bandA: event.detail.bandA }], "the band’s A");
  };

  readonly #lineChosen = (event: CustomEvent<{ readonly line: LineId }>): void => {
    this.#lineDesk.leave();
    this.onGrid = event.detail.line;
  };

  readonly #stepChosen = (event: CustomEvent<{ readonly step: GridStep }>): void => {
    this.step = event.detail.step;
  };

  readonly #rowTouched = (event: CustomEvent<{ readonly note: ChanterNote }>): void => {
    if (this.#session !== null) void this.#sound.touch(this.#pipesOnGrid(this.#session.score).setup, event.detail.note);
  };

  readonly #rowReleased = (): void => {
    this.#sound.release();
  };

  readonly #undo = (): void => {
    if (this.#session?.proposal) this.#lineDesk.leave();
    else this.#session?.undo();
  };

  readonly #redo = (): void => {
    this.#session?.redo();
  };

  readonly #findingChosen = (event: FindingChosenEvent): void => {
    const { finding } = event.detail;
    this.chosenFinding = finding;
    this.#session?.choose({ kind: "note", at: finding.address });
    this.#reveal(finding.address);
  };

  readonly #cureTaken = (event: CureTakenEvent): void => {
    this.#apply(event.detail.edits, event.detail.label);
  };

  readonly #graceLine = (): void => {
    if (this.#session !== null) this.#lineDesk.turn(this.#session, this.#pipesOnGrid(this.#session.score).id, this.hand);
  };

  readonly #audition = async (): Promise<void> => {
    if (this.#session !== null) this.#refuse(await openAudition(this.renderRoot as ShadowRoot, this.#session, this.#sound));
  };

  readonly #handOver = async (): Promise<void> => {
    if (this.#session?.proposal) {
      this.#refuse("What you see is only proposed, and would not be handed over. Keep it or leave it first.");
      return;
    }
    if (this.#session !== null) await openHandOver(this.renderRoot as ShadowRoot, this.#session.score, this.#sound);
  };

  // ---- the page ----

  readonly #key = (event: KeyboardEvent): void => {
    if (event.defaultPrevented) return;
    // With nothing in focus the keys are the grid's, so that a letter is a note from the first moment.
    if (event.composedPath()[0] === document.body) this.renderRoot.querySelector("scale-grid")?.takeKey(event);
    if (event.defaultPrevented || !(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const inField = event.composedPath().some((target) => target instanceof HTMLElement && target.matches("input, textarea, select"));
    if (key === "s") this.#desk.save();
    else if (key === "p") void this.#handOver();
    else if (key === "z" && !inField) event.shiftKey ? this.#redo() : this.#undo();
    else if (key === "y" && !inField) this.#redo();
    else return;
    event.preventDefault();
  };

  readonly #themeChosen = (event: ThemeChosenEvent): void => {
    this.#setTheme(event.detail.theme);
    void this.#desk.workspace.keepSetting("theme", event.detail.theme);
  };

  #setTheme(theme: Theme): void {
    this.theme = theme;
    showTheme(theme);
  }

  readonly #fold = (): void => {
    this.unfolded = !this.unfolded;
  };
}

customElements.define("ninefold-app", NinefoldApp);

declare global {
  interface HTMLElementTagNameMap {
    "ninefold-app": NinefoldApp;
  }
}
