import { html, LitElement, nothing, type PropertyValues } from "lit";
import { styleMap } from "../shared/style-map.ts";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import type { Address, Moment } from "../../src/score/address.ts";
import { barAtTime, barStarts, momentAt, scoreTicks, timeOf } from "../../src/score/bar-starts.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { sectionAround } from "../../src/score/section-around.ts";
import "../shared/filled-blank.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import type { Asked } from "./asked.ts";
import { insertBar } from "./bar-acts.ts";
import { barAtPlace, barsBetween, placeOfTime, totalWidth } from "./bar-places.ts";
import { chosenNote, chosenStretch, heldNoteAt, isEmpty } from "./chosen-notes.ts";
import { cellsOfBars, groundOfBars, inkOfBars } from "./drawn-bars.ts";
import type { Ghost } from "./gesture.ts";
import { gracenoteChoice, gracenotesOfKey } from "./gracenote-choice.ts";
import { columnAt, columnEnd, columnsBefore } from "./grid-columns.ts";
import type { Caret, GridHost } from "./grid-host.ts";
import { GridKeyboard } from "./grid-keyboard.ts";
import { DESK, gridHeight, PHONE, rowsHeight } from "./grid-measures.ts";
import { GridPointer } from "./grid-pointer.ts";
import { type GridScene, sceneOf } from "./grid-scene.ts";
import type { GridStep } from "./grid-step.ts";
import { drawingStyles, gridFrameStyles, labelStyles } from "./grid-styles.ts";
import { drawBack, drawMargin, drawTag, drawTeaching } from "./grid-surroundings.ts";
import { keysPage } from "./keys-page.ts";
import { drawLabels } from "./label-column.ts";
import { MomentLine } from "./moment-line.ts";
import { graceNote } from "./note-acts.ts";
import { areaOf, drawChosen, drawFindings, drawFocus, drawGhost, drawSounding, drawStretch, type InkArea } from "./overlay.ts";
import { RowTouch } from "./row-touch.ts";

/** Px drawn beyond both edges of the view, so that scrolling finds bars there. */
const SPARE = 400;

/** Room after the last bar for the word that adds one, px. */
const AFTER_LAST = 44;

/** What the grid shows of the sketch, px and bars. */
export interface GridView {
  readonly scrollLeft: number;
  readonly viewWidth: number;
  readonly firstBar: number;
  readonly lastBar: number;
}

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
    step: { attribute: false },
    compact: { attribute: false },
    caret: { state: true },
    ghost: { state: true },
    range: { state: true },
    narrow: { state: true },
    focused: { state: true },
    sounding: { state: true },
    gracing: { state: true },
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
  declare private gracing: boolean;

  #scene: GridScene | null = null;
  #host: GridHost;
  #keyboard: GridKeyboard;
  #pointer: GridPointer;
  #moment: MomentLine;
  readonly #touch = new RowTouch((event, note) => this.#emit(event, { note }));
  #askedSelection: Selection = NOTHING;
  #wantsFocus = false;
  #announces = false;
  #viewWidth = 0;
  #resized: ResizeObserver | null = null;
  #narrowQuery = matchMedia("(max-width: 599px)");

  static override styles = [controls, focusRing, visuallyHidden, gridFrameStyles, labelStyles, drawingStyles];

  constructor() {
    super();
    this.score = null;
    this.line = "";
    this.widths = [];
    this.selection = NOTHING;
    this.findings = [];
    this.chosenFinding = null;
    this.step = "eighth";
    this.compact = null;
    this.caret = { time: 0, note: "low-a" };
    this.ghost = null;
    this.range = { first: 0, last: 0 };
    this.narrow = false;
    this.focused = false;
    this.sounding = null;
    this.gracing = false;
    this.#host = this.#makeHost();
    this.#keyboard = new GridKeyboard(this.#host);
    this.#pointer = new GridPointer(this.#host, () => this.#scroller);
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
    this.#scroller.scrollLeft = left;
  }

  /** Shows the page of keys. */
  showKeys(): void {
    this.renderRoot.querySelector<HTMLElement>(".keys")?.showPopover();
  }

  /** Gives the keys to the grid. */
  override focus(): void {
    this.#wantsFocus = true;
    this.requestUpdate();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    const pipes = this.score === null ? null : pipeLineOf(this.score, this.line);
    if (this.score === null || pipes === null) {
      this.#scene = null;
      return;
    }
    const isCompact = this.compact ?? this.narrow;
    this.#scene = sceneOf(this.score, pipes, this.widths, isCompact ? PHONE : DESK, this.#scene);
    if (changed.has("score") || changed.has("step")) {
      this.caret = { ...this.caret, time: this.#columnOf(Math.min(this.caret.time, scoreTicks(this.score.frames))) };
    }
    if (changed.has("selection") && this.selection !== this.#askedSelection) this.#followSelection();
    if (changed.has("widths") || changed.has("score")) this.range = this.#rangeInView();
  }

  override render() {
    const scene = this.#scene;
    if (scene === null || this.score === null) return nothing;
    const { measures, pitch, widths, line } = scene;
    const isCompact = measures === PHONE;
    const chosen = chosenNote(this.score, line.id, this.selection);
    const { foot } = pitch;
    const total = totalWidth(widths);
    const size = {
      "--labels": `${measures.labels}px`,
      "--margin": `${measures.margin}px`,
      "--chords": `${measures.chords}px`,
      "--rows": `${rowsHeight(measures)}px`,
      "--drones": `${measures.drones}px`,
      "--height": `${gridHeight(measures)}px`,
    };
    return html`<div class=${isCompact ? "frame compact" : "frame"} style=${styleMap(size)}>
        <div class="labels" @pointerdown=${this.#namePressed} @pointerup=${this.#touch.release} @pointercancel=${this.#touch.release} @pointerleave=${this.#touch.release} @keydown=${this.#nameKey} @keyup=${this.#touch.release} @focusout=${this.#touch.release}>
          ${drawLabels({
            rows: pitch.rows,
            setup: pitch.setup,
            measures,
            compact: isCompact,
            chosen: chosen?.note ?? null,
            hovered: this.ghost?.note ?? null,
            sounding: this.sounding,
            tabStop: this.#tabStop(scene),
            section: sectionAround(this.score.frames, this.#firstInView()).name,
          })}
        </div>
        <div class="field">
          <svg class="back" aria-hidden="true">${drawBack(scene)}</svg>
          <div class="scroller" tabindex="-1" @scroll=${this.#scrolled}>
            <div class="content" style=${styleMap({ width: `${total + AFTER_LAST}px` })}>
              <svg class="drawing" aria-hidden="true">
                <defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse"><rect class="hatch-ground" width="6" height="6"></rect><path class="hatch-line" d="M-1.5 1.5L1.5 -1.5M0 6L6 0M4.5 7.5L7.5 4.5"></path></pattern></defs>
                ${drawStretch(scene, this.ghost?.kind === "stretch" ? this.ghost : chosenStretch(this.score, line.id, this.selection), measures.chords, foot)}
                <g class="grounds">${groundOfBars(scene, this.range)}</g>
                <g class="inks">${inkOfBars(scene, this.range)}</g>
                ${drawChosen(scene, chosen)}
                ${this.#drawSounding(scene)}
                ${drawGhost(scene, this.#ghostShown(scene))}
                ${drawFocus(scene, this.#focusArea(scene))}
                ${drawFindings(scene, this.findings, this.chosenFinding, this.range, foot)}
                <g class="moment still"><path d=${`M0 ${measures.chords - 6}V${gridHeight(measures)}`}></path><path class="flag" d=${`M-5.5 ${measures.chords - 10}h11l-5.5 7z`}></path></g>
              </svg>
              <div class="head-surface" @click=${this.#pointer.barPressed}></div>
              <div class="surface" @pointerdown=${this.#pointer.down} @pointermove=${this.#pointer.move} @pointerup=${this.#pointer.up} @pointercancel=${this.#pointer.cancel} @pointerleave=${this.#pointer.leave}></div>
              <button class="more" type="button" tabindex="-1" aria-label="Add a bar" style=${styleMap({ left: `${total}px` })} @click=${this.#addBar}>+ bar</button>
              ${this.#drawCellLayer(scene)}
              ${drawTag(scene, this.ghost)}
            </div>
          </div>
        </div>
        <div class="margin">${isCompact ? nothing : drawMargin(scene, this.step, this.#chooseStep, this.#openKeys)}</div>
        ${isEmpty(this.score, line.id) && !this.#pointer.holding ? drawTeaching(this.#touch.hearAll, this.#openExample) : nothing}
      </div>
      <div class="keys" popover="auto" role="dialog" aria-label="Keys">${keysPage()}</div>
      <div class="graces" popover="auto" role="dialog" aria-label="Gracenote" @keydown=${this.#graceKey} @toggle=${this.#graceToggled}>
        ${this.gracing && chosen !== null ? gracenoteChoice(chosen.note, chosen.event.gracenotes, this.#grace) : nothing}
      </div>
      <div class="heard said" role="status" aria-live="polite"></div>`;
  }

  protected override firstUpdated(): void {
    this.#resized = new ResizeObserver(() => this.#measured());
  }

  protected override updated(): void {
    const scroller = this.renderRoot.querySelector<HTMLElement>(".scroller");
    if (scroller === null) return;
    this.#resized?.observe(scroller);
    this.#fitBack(scroller);
    if (this.#wantsFocus) {
      this.#wantsFocus = false;
      this.#bringIntoView(this.caret.time);
      this.#caretCell()?.focus({ preventScroll: true });
    }
    if (this.#announces) {
      this.#announces = false;
      this.#say(this.#cellName());
    }
  }

  // ---- what is drawn here ----

  #drawSounding(scene: GridScene) {
    const moment = this.#moment.moment;
    if (moment === null || this.sounding === null) return nothing;
    return drawSounding(scene, this.#heldAt(scene, timeOf(scene.score.frames, moment)));
  }

  #drawCellLayer(scene: GridScene) {
    const { score, line } = scene;
    const columns = columnsBefore(line, score.frames, this.step).at(-1) ?? 0;
    const end = scoreTicks(score.frames);
    const atEnd = this.caret.time >= end;
    const caretBar = atEnd ? score.frames.length : barAtTime(score.frames, this.caret.time);
    return html`<div
      role="grid"
      aria-label=${`Scale grid, ${line.name}`}
      aria-rowcount="1"
      aria-colcount=${columns + 1}
      @keydown=${this.#keyDown}
      @focusin=${this.#focusCame}
      @focusout=${this.#focusWent}
      @click=${this.#cellPressed}
    ><div role="row" aria-rowindex="1">
        ${cellsOfBars(scene, this.range, this.step, this.caret, caretBar, this.findings)}
        <div role="gridcell" data-end tabindex=${atEnd ? 0 : -1} aria-colindex=${columns + 1} aria-label="After the last bar. A letter goes on in a new bar." style=${styleMap({ left: `${totalWidth(scene.widths)}px`, width: `${AFTER_LAST}px` })}></div>
      </div></div>`;
  }

  /** The ghost of a drag or of the mouse; of the cell the keys are on, where it is empty; on an empty sketch, of the first note. */
  #ghostShown(scene: GridScene): Ghost | null {
    if (this.ghost !== null) return this.ghost;
    const { score, line } = scene;
    const { time, note } = this.caret;
    if (this.focused && time < scoreTicks(score.frames) && this.#heldAt(scene, time) === null) {
      return { kind: "note", from: time, to: columnEnd(line, score.frames, time, this.step), note };
    }
    if (!isEmpty(score, line.id)) return null;
    return { kind: "note", from: 0, to: columnEnd(line, score.frames, 0, this.step), note: "low-a" };
  }

  #focusArea(scene: GridScene): InkArea | null {
    if (!this.focused) return null;
    const { score, line, widths } = scene;
    const { time, note } = this.caret;
    const held = this.#heldAt(scene, time);
    if (held !== null) return areaOf(scene, held);
    const left = placeOfTime(score.frames, widths, time);
    if (time >= scoreTicks(score.frames)) return { left: left + 6, right: left + AFTER_LAST - 6, y: scene.height(note) };
    return { left, right: placeOfTime(score.frames, widths, columnEnd(line, score.frames, time, this.step)), y: scene.height(note) };
  }

  // ---- what the hand asks for ----

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
        grid.caret = { ...caret, time: grid.#columnOf(caret.time) };
        if (focus) grid.#wantsFocus = true;
      },
      chooseStep: (step) => grid.#chooseStep(step),
      showGhost: (ghost) => {
        grid.ghost = ghost;
      },
      showKeys: () => grid.showKeys(),
      showGracenotes: () => grid.showGracenotes(),
      say: (words) => grid.#say(words),
      tell: (event) => grid.#emit(event, {}),
      playFrom: (time) =>
        grid.#emit("play-asked", { from: momentAt(scene().score.frames, Math.min(time, scoreTicks(scene().score.frames) - 1)) }),
    };
  }

  #ask(asked: Asked | null, otherwise: string): void {
    if (asked === null) return this.#say(otherwise);
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

  /** Shows the choice of gracenotes for the chosen note. */
  showGracenotes(): void {
    const scene = this.#scene;
    const chosen = scene === null ? null : chosenNote(scene.score, scene.line.id, this.selection);
    const panel = this.renderRoot.querySelector<HTMLElement>(".graces");
    if (scene === null || chosen === null || panel === null) return;
    const area = areaOf(scene, chosen);
    const box = this.#scroller.getBoundingClientRect();
    this.gracing = true;
    panel.showPopover();
    panel.style.left = `${Math.max(8, Math.min(innerWidth - 280, box.left + area.left - this.#scroller.scrollLeft))}px`;
    panel.style.top = `${Math.max(8, box.top + area.y + 20)}px`;
    void this.updateComplete.then(() => panel.querySelector<HTMLElement>("button:not(:disabled)")?.focus());
  }

  readonly #grace = (gracenotes: readonly PlainNote[]): void => {
    const scene = this.#scene;
    const chosen = scene === null ? null : chosenNote(scene.score, scene.line.id, this.selection);
    this.renderRoot.querySelector<HTMLElement>(".graces")?.hidePopover();
    if (scene !== null && chosen !== null) this.#ask(graceNote(scene.score, scene.line.id, chosen, gracenotes), "");
    this.#wantsFocus = true;
    this.requestUpdate();
  };

  readonly #graceKey = (event: KeyboardEvent): void => {
    const gracenotes = event.ctrlKey || event.metaKey || event.altKey ? null : gracenotesOfKey(event.key);
    if (gracenotes === null) return;
    event.preventDefault();
    event.stopPropagation();
    const offered = this.renderRoot.querySelectorAll(".graces button:not(:disabled)");
    if (gracenotes.length > 0 && ![...offered].some((button) => button.textContent?.toLowerCase() === event.key.toLowerCase())) {
      return this.#say("No finger can play that on this note.");
    }
    this.#grace(gracenotes);
  };

  readonly #graceToggled = (event: ToggleEvent): void => {
    this.gracing = event.newState === "open";
  };

  readonly #openKeys = (): void => this.showKeys();
  readonly #openExample = (): void => this.#emit("example-asked", {});
  readonly #addBar = (): void => {
    if (this.score !== null) this.#ask(insertBar(this.score.frames.length), "");
  };

  // ---- keys and focus ----

  readonly #keyDown = (event: KeyboardEvent): void => {
    if (event.key === "Escape" && this.#pointer.holding) {
      this.#pointer.cancel();
      event.stopPropagation();
      return;
    }
    this.focused = true;
    this.#keyboard.pressed(event);
  };

  readonly #focusCame = (event: FocusEvent): void => {
    this.focused = (event.target as HTMLElement).matches(":focus-visible");
  };

  readonly #focusWent = (): void => {
    this.focused = false;
  };

  /** A cell is pressed by a screen reader: the mouse never reaches it. */
  readonly #cellPressed = (event: Event): void => {
    const cell = (event.target as HTMLElement).closest<HTMLElement>("[data-bar]");
    const scene = this.#scene;
    if (cell === null || scene === null) return;
    const time = (barStarts(scene.score.frames)[Number(cell.dataset["bar"])] ?? 0) + Number(cell.dataset["at"]);
    const held = this.#heldAt(scene, time);
    this.#host.moveCaret({ time, note: held?.note ?? this.caret.note }, true);
    this.#choose(held === null ? NOTHING : { kind: "note", at: { line: scene.line.id, ...momentAt(scene.score.frames, held.from) } });
  };

  readonly #namePressed = (event: PointerEvent): void => {
    const name = (event.target as HTMLElement).closest<HTMLElement>(".name");
    if (name !== null && event.button === 0) this.#touch.touch(name.dataset["note"] as ChanterNote);
  };

  readonly #nameKey = (event: KeyboardEvent): void => {
    const name = (event.target as HTMLElement).closest<HTMLElement>(".name");
    if (name === null) return;
    const by = event.key === "ArrowUp" ? -1 : event.key === "ArrowDown" ? 1 : 0;
    if (by !== 0) {
      const names = [...this.renderRoot.querySelectorAll<HTMLElement>(".name")];
      names[Math.max(0, Math.min(names.length - 1, names.indexOf(name) + by))]?.focus();
    } else if (event.key === "Enter" || event.key === " ") this.#touch.touch(name.dataset["note"] as ChanterNote);
    else return;
    event.preventDefault();
  };

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
    return (this.#scene === null ? null : this.#heldAt(this.#scene, time))?.note ?? this.caret.note;
  }

  #heldAt({ score, line }: GridScene, time: number) {
    return time < scoreTicks(score.frames) ? heldNoteAt(score, line.id, time) : null;
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

  // ---- the view ----

  get #scroller(): HTMLElement {
    return this.renderRoot.querySelector(".scroller") as HTMLElement;
  }

  #firstInView(): number {
    const scroller = this.renderRoot?.querySelector(".scroller");
    return barAtPlace(this.widths, scroller?.scrollLeft ?? 0);
  }

  #rangeInView(): BarRange {
    const left = this.renderRoot?.querySelector(".scroller")?.scrollLeft ?? 0;
    const view = this.#viewWidth || innerWidth;
    return barsBetween(this.widths, Math.max(0, left - SPARE), left + view + SPARE);
  }

  readonly #scrolled = (): void => {
    const range = this.#rangeInView();
    if (range.first !== this.range.first || range.last !== this.range.last) this.range = range;
    this.#fitBack(this.#scroller);
    this.#tellView();
  };

  #measured(): void {
    const { clientWidth } = this.#scroller;
    if (clientWidth === this.#viewWidth) return;
    this.#viewWidth = clientWidth;
    this.range = this.#rangeInView();
    this.#tellView();
  }

  #tellView(): void {
    const { scrollLeft, clientWidth } = this.#scroller;
    const { first, last } = barsBetween(this.widths, scrollLeft, scrollLeft + clientWidth);
    const view: GridView = { scrollLeft, viewWidth: clientWidth, firstBar: first, lastBar: last };
    this.#emit("view-moved", view);
  }

  /** The ground ends with the last bar. */
  #fitBack(scroller: HTMLElement): void {
    const back = this.renderRoot.querySelector<SVGElement>(".back");
    const width = `${Math.max(0, Math.min(scroller.clientWidth, totalWidth(this.widths) - scroller.scrollLeft))}px`;
    if (back !== null && back.style.inlineSize !== width) back.style.inlineSize = width;
  }

  #bringIntoView(time: number): void {
    const scene = this.#scene;
    if (scene === null) return;
    const { scrollLeft, clientWidth } = this.#scroller;
    const left = placeOfTime(scene.score.frames, scene.widths, time);
    const right = placeOfTime(scene.score.frames, scene.widths, columnEnd(scene.line, scene.score.frames, time, this.step));
    const past = time >= scoreTicks(scene.score.frames) ? AFTER_LAST : 0;
    if (left < scrollLeft) this.#scroller.scrollLeft = left - clientWidth * 0.1;
    else if (right + past > scrollLeft + clientWidth) this.#scroller.scrollLeft = right + past - clientWidth * (past > 0 ? 1 : 0.9);
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
