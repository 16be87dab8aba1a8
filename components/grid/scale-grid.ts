import { html, LitElement, nothing, type PropertyValues } from "lit";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { Address, Moment } from "../../src/score/address.ts";
import { barStarts, momentAt, scoreTicks, timeOf } from "../../src/score/bar-starts.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { sectionAround } from "../../src/score/section-around.ts";
import type { ProposedPlaces } from "../session/proposal.ts";
import { styleMap } from "../shared/style-map.ts";
import "../shared/filled-blank.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import type { Asked } from "./asked.ts";
import { insertBar } from "./bar-acts.ts";
import { placeOfTime, totalWidth } from "./bar-places.ts";
import { AFTER_LAST, areaOfCaret, ghostAtCaret } from "./caret-marks.ts";
import { chosenNote, chosenStretch, heldNoteAt, isEmpty } from "./chosen-notes.ts";
import { drawingStyles } from "./drawing-styles.ts";
import { drawCellLayer, groundOfBars, inkOfBars } from "./drawn-bars.ts";
import { frameStyles } from "./frame-styles.ts";
import type { Ghost } from "./gesture.ts";
import { columnAt, columnEnd } from "./grid-columns.ts";
import type { Caret, GridHost } from "./grid-host.ts";
import { GridKeyboard } from "./grid-keyboard.ts";
import { asProperties, DESK, gridHeight, PHONE } from "./grid-measures.ts";
import { GridMenus } from "./grid-menus.ts";
import { GridPointer } from "./grid-pointer.ts";
import { type GridScene, sceneOf } from "./grid-scene.ts";
import type { GridStep } from "./grid-step.ts";
import { drawBack, drawMargin, drawTag, drawTeaching } from "./grid-surroundings.ts";
import { GridViewport } from "./grid-viewport.ts";
import { keysPage } from "./keys-page.ts";
import { drawLabels } from "./label-column.ts";
import { labelStyles } from "./label-styles.ts";
import { MomentLine } from "./moment-line.ts";
import { drawChosen, drawFindings, drawFirstStrike, drawFocus, drawGhost, drawSounding, drawStretch } from "./overlay.ts";
import { drawProposed } from "./proposed-marks.ts";
import { RowTouch } from "./row-touch.ts";
import { stepStyles } from "./step-choice.ts";

/**
 * The scale grid: the chanter's rows at their true heights against the band, time as columns, one pipe line as an unbroken trace. Mouse,
 * finger and keys place, move and change notes. It changes nothing itself: it asks, and draws the score it is given back.
 *
 * @fires edits-asked one act as edits, what undoing it is called, and what is chosen then
 * @fires selection-asked
 * @fires row-touched a row's name is pressed: let its note sound
 * @fires row-released
 * @fires view-moved another part of the sketch is in view
 * @fires undo-asked
 * @fires redo-asked
 * @fires gracing-asked grace the line by rule
 * @fires audition-asked hear the chosen note in versions
 * @fires play-asked play from a moment, or stop
 * @fires step-chosen time is drawn in another step
 * @fires example-asked the empty sketch's offer was taken
 */
export class ScaleGrid extends LitElement {
  static override properties = {
    score: { attribute: false },
    line: { attribute: false },
    widths: { attribute: false },
    selection: { attribute: false },
    findings: { attribute: false },
    chosenFinding: { attribute: false },
    proposed: { attribute: false },
    step: { attribute: false },
    compact: { attribute: false },
    caret: { state: true },
    ghost: { state: true },
    range: { state: true },
    narrow: { state: true },
    focused: { state: true },
    sounding: { state: true },
  };

  declare score: Score | null;
  /** The pipe line that is shown. */
  declare line: LineId;
  /** How wide each bar is, px. */
  declare widths: readonly number[];
  declare selection: Selection;
  /** Everything to look at; a finding's number is its place in the list, from 1. */
  declare findings: readonly Finding[];
  declare chosenFinding: Finding | null;
  /** Where the score shown is only proposed. */
  declare proposed: ProposedPlaces | null;
  /** How finely time is drawn. */
  declare step: GridStep;
  /** Whether to draw for a phone; null: by the window's width. */
  declare compact: boolean | null;
  declare private caret: Caret;
  declare private ghost: Ghost | null;
  declare private range: BarRange;
  declare private narrow: boolean;
  /** Whether the focus is on a cell and came there by the keys. */
  declare private focused: boolean;
  declare private sounding: ChanterNote | null;

  #scene: GridScene | null = null;
  #host: GridHost;
  #keyboard: GridKeyboard;
  #pointer: GridPointer;
  #menus: GridMenus;
  #moment: MomentLine;
  readonly #viewport = new GridViewport(() => this.renderRoot);
  readonly #touch = new RowTouch((event, note) => this.#emit(event, { note }));
  #askedSelection: Selection = NOTHING;
  #wantsFocus = false;
  #announces = false;
  /** Whether the last thing that happened was a press: the focus it brings is not shown. */
  #byHand = false;
  #resized: ResizeObserver | null = null;
  #narrowQuery = matchMedia("(max-width: 599px)");

  static override styles = [controls, focusRing, visuallyHidden, frameStyles, stepStyles, labelStyles, drawingStyles];

  constructor() {
    super();
    this.score = null;
    this.line = "";
    this.widths = [];
    this.selection = NOTHING;
    this.findings = [];
    this.chosenFinding = null;
    this.proposed = null;
    this.step = "eighth";
    this.compact = null;
    this.caret = { time: 0, note: "low-a" };
    this.ghost = null;
    this.range = { first: 0, last: 0 };
    this.narrow = false;
    this.focused = false;
    this.sounding = null;
    this.#host = this.#makeHost();
    this.#keyboard = new GridKeyboard(this.#host);
    this.#pointer = new GridPointer(this.#host, () => this.#scroller);
    this.#menus = new GridMenus(this.#host, () => ({ root: this.renderRoot, scene: this.#scene as GridScene, scroller: this.#scroller }));
    this.#moment = new MomentLine((note) => {
      this.sounding = note;
    });
  }

  /** Where playing is, or null. Set with every frame while it plays, so it does not make the grid draw itself again. */
  get moment(): Moment | null {
    return this.#moment.moment;
  }

  set moment(moment: Moment | null) {
    const line = this.renderRoot?.querySelector<SVGElement>(".moment") ?? null;
    this.#moment.show(moment, this.#scene, line, line === null ? null : this.#scroller);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#narrowQuery.addEventListener("change", this.#narrowChanged);
    this.#narrowChanged();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#narrowQuery.removeEventListener("change", this.#narrowChanged);
    this.#resized?.disconnect();
    this.#resized = null;
    this.#pointer.cancel();
    this.#touch.release();
  }

  /** Brings a place into view and the keys to it. */
  reveal(address: Address): void {
    if (this.score === null || address.bar >= this.score.frames.length) return;
    const time = timeOf(this.score.frames, address);
    this.#host.moveCaret({ time: this.#columnOf(time), note: this.#noteAt(time) }, false);
    this.#bringIntoView(time);
  }

  override scrollTo(options?: ScrollToOptions): void;
  override scrollTo(x: number, y: number): void;
  override scrollTo(place?: ScrollToOptions | number): void {
    const left = typeof place === "number" ? place : (place?.left ?? 0);
    this.#viewport.scrollTo(left);
  }

  /** Shows the page of keys. */
  readonly showKeys = (): void => {
    this.renderRoot.querySelector<HTMLElement>(".keys")?.showPopover();
  };

  /** A key that was pressed while nothing had the focus; what the grid can do with it, it does, and takes the focus. */
  takeKey(event: KeyboardEvent): void {
    if (this.#scene === null) return;
    this.#keyboard.pressed(event);
    if (event.defaultPrevented) this.focus();
  }

  /** Gives the keys to the grid. */
  override focus(): void {
    this.#wantsFocus = true;
    this.requestUpdate();
  }

  /**
   * One key moves the hand and asks for an edit. The edit comes back as a new score within the same turn, so drawing waits for it, and is done
   * once instead of twice.
   */
  protected override async scheduleUpdate(): Promise<void> {
    await Promise.resolve();
    super.scheduleUpdate();
  }

  protected override willUpdate(changed: PropertyValues): void {
    const pipes = this.score === null ? null : pipeLineOf(this.score, this.line);
    if (this.score === null || pipes === null) {
      this.#scene = null;
      return;
    }
    const isCompact = this.compact ?? this.narrow;
    this.#scene = sceneOf(this.score, pipes, this.widths, isCompact ? PHONE : DESK, this.#scene);
    // The keys may have been sent to a time that only the new score has.
    if (changed.has("score") || changed.has("step") || changed.has("caret")) {
      this.caret = { ...this.caret, time: this.#columnOf(Math.min(this.caret.time, scoreTicks(this.score.frames))) };
    }
    if (changed.has("selection") && this.selection !== this.#askedSelection) this.#followSelection();
    if (changed.has("widths") || changed.has("score")) this.range = this.#viewport.range(this.widths);
  }

  override render() {
    const scene = this.#scene;
    if (scene === null || this.score === null) return nothing;
    const { measures, pitch, widths, line } = scene;
    const isCompact = measures === PHONE;
    const chosen = chosenNote(this.score, line.id, this.selection);
    const { foot } = pitch;
    const total = totalWidth(widths);
    const blank = isEmpty(this.score, line.id) && !this.#pointer.holding;
    return html`<div class=${isCompact ? "frame compact" : "frame"} style=${styleMap(asProperties(measures))}>
        <div class="labels" @pointerdown=${this.#touch.pressed} @pointerup=${this.#touch.release} @pointercancel=${this.#touch.release} @pointerleave=${this.#touch.release} @keydown=${this.#touch.keyPressed} @keyup=${this.#touch.release} @focusout=${this.#touch.release}>
          ${drawLabels(pitch, {
            chosen: chosen?.note ?? null,
            hovered: this.ghost?.note ?? null,
            sounding: this.sounding,
            tabStop: this.#tabStop(scene),
            section: sectionAround(this.score.frames, this.#viewport.firstBar(this.widths)).name,
          })}
        </div>
        <div class="time" @pointerdown=${this.#handCame} @contextmenu=${this.#menus.asked}>
          <svg class="back" aria-hidden="true">${drawBack(scene)}</svg>
          <div class="scroller" tabindex="-1" @scroll=${this.#scrolled}>
            <div class="content" style=${styleMap({ width: `${total + AFTER_LAST}px` })}>
              <svg class="drawing" aria-hidden="true">
                <defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse"><rect class="hatch-ground" width="6" height="6"></rect><path class="hatch-line" d="M-1.5 1.5L1.5 -1.5M0 6L6 0M4.5 7.5L7.5 4.5"></path></pattern></defs>
                <g class="grounds">${groundOfBars(scene, this.range)}</g>
                ${drawStretch(scene, this.ghost?.kind === "stretch" ? this.ghost : chosenStretch(this.score, line.id, this.selection), measures.chords, foot)}
                <g class="inks">${inkOfBars(scene, this.range)}</g>
                ${drawProposed(scene, this.proposed, this.range)}
                ${drawChosen(scene, chosen)}
                ${drawSounding(scene, this.sounding === null ? null : this.#moment.held(scene))}
                ${drawGhost(scene, this.ghost ?? ghostAtCaret(scene, this.caret, this.focused, this.step))}
                ${blank ? drawFirstStrike(scene) : nothing}
                ${drawFocus(scene, this.focused ? areaOfCaret(scene, this.caret, this.step) : null)}
                ${drawFindings(scene, this.findings, this.chosenFinding, this.range, foot)}
                <g class="moment still"><path d=${`M0 ${measures.chords - 6}V${gridHeight(measures)}`}></path><path class="flag" d=${`M-5.5 ${measures.chords - 10}h11l-5.5 7z`}></path></g>
              </svg>
              <div class="head-surface" @click=${this.#pointer.barPressed}></div>
              <div class="surface" @pointerdown=${this.#pointer.down} @pointermove=${this.#pointer.move} @pointerup=${this.#pointer.up} @pointercancel=${this.#pointer.cancel} @pointerleave=${this.#pointer.leave}></div>
              <button class="more" type="button" tabindex="-1" aria-label="Add a bar" style=${styleMap({ left: `${total}px` })} @click=${this.#addBar}>+ bar</button>
              ${drawCellLayer(scene, this.range, this.step, this.caret, this.findings, this.#cellEvents)}
              ${drawTag(scene, this.ghost)}
            </div>
          </div>
          ${blank ? drawTeaching(isCompact, this.#touch.hearAll, this.#openExample) : nothing}
        </div>
        <div class="margin">${isCompact ? nothing : drawMargin(scene, this.step, this.#chooseStep, this.showKeys)}</div>
      </div>
      <div class="keys" popover="auto" role="dialog" aria-label="Keys">${keysPage()}</div>
      <gracenote-menu @gracenotes-chosen=${this.#menus.gracenotesChosen} @menu-left=${this.#menus.left}></gracenote-menu>
      <hand-menu @word-pressed=${this.#menus.wordPressed}></hand-menu>
      <div class="heard said" role="status" aria-live="polite"></div>`;
  }

  protected override updated(): void {
    const { scroller } = this.#viewport;
    if (scroller === null) return;
    this.#resized ??= new ResizeObserver(this.#scrolled);
    this.#resized.observe(scroller);
    this.#viewport.fitGround(this.widths);
    if (this.#wantsFocus) {
      this.#wantsFocus = false;
      this.#bringIntoView(this.caret.time);
      const cell = this.#caretCell();
      // Asking for a focus that is there already would still lay the page out.
      if (cell !== this.shadowRoot?.activeElement) cell?.focus({ preventScroll: true });
    }
    if (this.#announces) {
      this.#announces = false;
      this.#say(this.#cellName());
    }
  }

  #makeHost(): GridHost {
    const grid = this;
    const scene = (): GridScene => {
      if (grid.#scene === null) throw new RangeError("A grid is used only once it shows a score.");
      return grid.#scene;
    };
    return {
      get score() {
        return scene().score;
      },
      get pipes() {
        return scene().line;
      },
      get selection() {
        return grid.selection;
      },
      get step() {
        return grid.step;
      },
      get caret() {
        return grid.caret;
      },
      get field() {
        const { score, line, widths, measures, pitch } = scene();
        return { score, line: line.id, widths, selection: grid.selection, rows: pitch.rows, measures, height: pitch.height };
      },
      ask: (asked, otherwise = "") => grid.#ask(asked, otherwise),
      choose: (selection) => grid.#choose(selection),
      moveCaret: (caret, focus) => {
        grid.caret = caret;
        if (focus) grid.#wantsFocus = true;
      },
      chooseStep: (step) => grid.#chooseStep(step),
      showGhost: (ghost) => {
        grid.ghost = ghost;
      },
      showKeys: () => grid.showKeys(),
      showGracenotes: () => grid.#menus.showGracenotes(),
      say: (words) => grid.#say(words),
      tell: (event) => grid.#emit(event, {}),
      playFrom: (time) =>
        grid.#emit("play-asked", { from: momentAt(scene().score.frames, Math.min(time, scoreTicks(scene().score.frames) - 1)) }),
    };
  }

  #ask(asked: Asked | null, otherwise: string): void {
    if (asked === null) {
      this.#say(otherwise);
      return;
    }
    this.#askedSelection = asked.selection;
    this.#announces = true;
    this.#emit("edits-asked", asked);
  }

  #choose(selection: Selection): void {
    const isSame = selection.kind === this.selection.kind && JSON.stringify(selection) === JSON.stringify(this.selection);
    if (isSame) return;
    this.#askedSelection = selection;
    this.#emit("selection-asked", { selection });
  }

  readonly #chooseStep = (step: GridStep): void => {
    this.step = step;
    this.#emit("step-chosen", { step });
  };

  readonly #openExample = (): void => this.#emit("example-asked", {});
  readonly #addBar = (): void => {
    if (this.score !== null) this.#ask(insertBar(this.score.frames.length), "");
  };

  #keyDown(event: KeyboardEvent): void {
    if (event.key === "Escape" && this.#pointer.holding) {
      this.#pointer.cancel();
      event.stopPropagation();
      return;
    }
    this.#byHand = false;
    this.focused = true;
    this.#keyboard.pressed(event);
  }

  readonly #cellEvents = {
    keydown: (event: KeyboardEvent): void => this.#keyDown(event),
    focusin: (event: FocusEvent): void => this.#focusCame(event),
    focusout: (): void => this.#focusWent(),
    /** A cell is pressed by a screen reader: the mouse never reaches it. */
    click: (event: Event): void => this.#goToCell(event.target as HTMLElement),
  };

  readonly #handCame = (): void => {
    this.#byHand = true;
    this.focused = false;
  };

  #focusCame(event: FocusEvent): void {
    const cell = event.target as HTMLElement;
    this.focused = cell.matches(":focus-visible") && !this.#byHand;
    if (cell.tabIndex !== 0) this.#goToCell(cell);
  }

  #focusWent(): void {
    this.focused = false;
    this.#byHand = false;
  }

  #goToCell({ dataset }: HTMLElement): void {
    const scene = this.#scene;
    if (scene === null) return;
    const { frames } = scene.score;
    const isLast = dataset.bar === undefined;
    this.#keyboard.goTo(isLast ? scoreTicks(frames) : (barStarts(frames)[Number(dataset.bar)] ?? 0) + Number(dataset.at));
  }

  /** The name Tab comes to: of the row the keys are on, or the lowest. */
  #tabStop({ pitch }: GridScene): ChanterNote {
    return pitch.rows.find(({ note }) => note === this.caret.note)?.note ?? "low-a";
  }

  #followSelection(): void {
    const { selection, score } = this;
    this.#askedSelection = selection;
    if (score === null || selection.kind === "nothing") return;
    const place = selection.kind === "note" ? selection.at : selection.from;
    const line = selection.kind === "note" ? selection.at.line : selection.line;
    if (line !== this.line || place.bar >= score.frames.length) return;
    const time = timeOf(score.frames, place);
    this.caret = { time: this.#columnOf(time), note: this.#noteAt(time) };
  }

  #columnOf(time: number): number {
    const scene = this.#scene;
    return scene === null ? time : columnAt(scene.line, scene.score.frames, time, this.step);
  }

  #noteAt(time: number): ChanterNote {
    return (this.#scene === null ? null : heldNoteAt(this.#scene.score, this.line, time))?.note ?? this.caret.note;
  }

  #caretCell(): HTMLElement | null {
    return this.renderRoot.querySelector<HTMLElement>('[role="gridcell"][tabindex="0"]');
  }

  /** What is said after an edit: the chosen note's cell, or the one the keys are on. */
  #cellName(): string {
    const { selection } = this;
    const chosen = selection.kind === "note" ? `[data-bar="${selection.at.bar}"][data-at="${selection.at.at}"]` : '[tabindex="0"]';
    return this.renderRoot.querySelector(`[role="gridcell"]${chosen}`)?.getAttribute("aria-label") ?? "";
  }

  #say(words: string): void {
    const said = this.renderRoot.querySelector(".said");
    if (said !== null && words !== "") said.textContent = words;
  }

  get #scroller(): HTMLElement {
    return this.#viewport.scroller as HTMLElement;
  }

  readonly #scrolled = (): void => {
    this.#viewport.moved();
    const range = this.#viewport.range(this.widths);
    if (range.first !== this.range.first || range.last !== this.range.last) this.range = range;
    this.#viewport.fitGround(this.widths);
    this.#emit("view-moved", this.#viewport.view(this.widths));
  };

  /** Shows a column, or the whole of the note that stands there. */
  #bringIntoView(time: number): void {
    const scene = this.#scene;
    if (scene === null) return;
    const { score, widths, line } = scene;
    const isPast = time >= scoreTicks(score.frames);
    const held = heldNoteAt(score, line.id, time);
    const end = placeOfTime(score.frames, widths, held?.to ?? columnEnd(line, score.frames, time, this.step));
    this.#viewport.bringIntoView(placeOfTime(score.frames, widths, held?.from ?? time), isPast ? end + AFTER_LAST : end);
  }

  readonly #narrowChanged = (): void => {
    this.narrow = this.#narrowQuery.matches;
  };

  #emit(name: string, detail: object): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

customElements.define("scale-grid", ScaleGrid);

declare global {
  interface HTMLElementTagNameMap {
    "scale-grid": ScaleGrid;
  }
}
