import { userEvent } from "vitest/browser";
import type { EditsAsked } from "../../components/shared/edits-asked.ts";
import "../../components/grid/scale-grid.ts";
import type { ScaleGrid } from "../../components/grid/scale-grid.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import { screenWidths } from "../../src/engraving/screen-widths.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import type { Score } from "../../src/score/score.ts";

/** A place on the grid: a bar from 0, eighths from its start (fractions allowed), and the row of a note. */
export type GridPlace = readonly [bar: number, eighths: number, row: ChanterNote];

/** How a hand touches the grid. */
export type Touch = "mouse" | "touch";

/** A scale grid in the page, with a host that applies what it asks for. Only this knows the grid's shadow DOM. */
export class GridHarness {
  readonly grid: ScaleGrid;
  score: Score;
  selection: Selection = NOTHING;
  /** Everything asked for so far, oldest first. */
  readonly asked: EditsAsked[] = [];
  /** Why the last edit was refused, or an empty text. */
  refusal = "";

  private constructor(score: Score) {
    this.score = score;
    this.grid = document.createElement("scale-grid");
  }

  /** Puts a grid with a score into the page. */
  static async open(
    score: Score,
    options: { readonly width?: number; readonly compact?: boolean; readonly findings?: readonly Finding[] } = {},
  ): Promise<GridHarness> {
    const harness = new GridHarness(score);
    const { grid } = harness;
    const place = document.createElement("div");
    place.style.inlineSize = `${options.width ?? 1334}px`;
    place.append(grid);
    document.body.append(place);
    grid.compact = options.compact ?? false;
    grid.findings = options.findings ?? [];
    grid.addEventListener("edits-asked", (event) => harness.#apply(event.detail as EditsAsked & { readonly selection: Selection }));
    grid.addEventListener("selection-asked", (event) => harness.#choose((event as CustomEvent<{ selection: Selection }>).detail.selection));
    harness.#show();
    await harness.settled();
    return harness;
  }

  /** The edits of the last act. */
  get edits(): readonly Edit[] {
    return this.asked.at(-1)?.edits ?? [];
  }

  /** Waits until the grid has drawn what it was given. */
  async settled(): Promise<void> {
    do await this.grid.updateComplete;
    while (!(await this.grid.updateComplete));
  }

  /** Waits until the view's size and scrolling have reached the grid. */
  async painted(): Promise<void> {
    await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
    await this.settled();
  }

  /** Presses at the first place, goes over the others, and lets go at the last. */
  async drag(places: readonly GridPlace[], touch: Touch = "mouse", shift = false): Promise<void> {
    const [first, ...rest] = places;
    if (first === undefined) throw new RangeError("A drag has places.");
    this.#pointer("pointerdown", this.#pointOf(first), touch, shift);
    await this.settled();
    for (const place of rest) {
      this.#pointer("pointermove", this.#pointOf(place), touch, shift);
      await this.settled();
    }
    this.#pointer("pointerup", this.#pointOf(rest.at(-1) ?? first), touch, shift);
    await this.settled();
  }

  /** Presses and lets go. */
  async press(place: GridPlace, touch: Touch = "mouse"): Promise<void> {
    await this.drag([place], touch);
  }

  /** Presses and goes over places, and does not let go. */
  async hold(places: readonly GridPlace[]): Promise<void> {
    for (const [index, place] of places.entries()) {
      this.#pointer(index === 0 ? "pointerdown" : "pointermove", this.#pointOf(place), "mouse", false);
      await this.settled();
    }
  }

  /** Moves the mouse without pressing. */
  async hover(place: GridPlace): Promise<void> {
    this.#pointer("pointermove", this.#pointOf(place), "mouse", false);
    await this.settled();
  }

  /** Gives the focus to the grid and presses keys, as userEvent spells them. */
  async keys(text: string): Promise<void> {
    if (!(this.#root.activeElement instanceof HTMLElement))
      this.#root.querySelector<HTMLElement>('[role="gridcell"][tabindex="0"]')?.focus();
    await userEvent.keyboard(text);
    await this.settled();
  }

  /** Presses one key with what is held down, straight at the cell that has the focus: for keys the browser keeps for itself. */
  async key(key: string, held: { readonly ctrl?: boolean; readonly shift?: boolean; readonly alt?: boolean } = {}): Promise<void> {
    const cell = this.focusedCell ?? this.#root.querySelector<HTMLElement>('[role="gridcell"][tabindex="0"]');
    cell?.focus();
    const init = { key, ctrlKey: held.ctrl ?? false, shiftKey: held.shift ?? false, altKey: held.alt ?? false };
    cell?.dispatchEvent(new KeyboardEvent("keydown", { ...init, bubbles: true, composed: true, cancelable: true }));
    await this.settled();
  }

  /** The spoken name of the cell at a place, or null where none is drawn. */
  spoken(bar: number, eighths: number): string | null {
    return this.#cell(bar, eighths)?.getAttribute("aria-label") ?? null;
  }

  columnIndex(bar: number, eighths: number): number {
    return Number(this.#cell(bar, eighths)?.getAttribute("aria-colindex"));
  }

  focusOn(bar: number, eighths: number): void {
    this.#cell(bar, eighths)?.focus();
  }

  get focusedCell(): HTMLElement | null {
    const active = this.#root.activeElement;
    return active instanceof HTMLElement && active.getAttribute("role") === "gridcell" ? active : null;
  }

  get tabStops(): number {
    return this.#root.querySelectorAll('[role="gridcell"][tabindex="0"]').length;
  }

  /** What the screen reader was told last. */
  get said(): string {
    return this.#root.querySelector(".said")?.textContent ?? "";
  }

  /** The tag beside the ghost, or null. */
  get tag(): string | null {
    return this.#root.querySelector(".tag")?.textContent?.trim() ?? null;
  }

  get ghosts(): number {
    return this.#root.querySelectorAll(".ghost").length;
  }

  /** How many handles the chosen note has. */
  get handles(): number {
    return this.#root.querySelectorAll(".handle").length;
  }

  /** The rows' names from top to bottom. */
  get rowNames(): readonly string[] {
    return [...this.#root.querySelectorAll(".written")].map((name) => name.textContent ?? "");
  }

  get partials(): readonly string[] {
    return [...this.#root.querySelectorAll(".partial")].map((name) => name.textContent ?? "");
  }

  /** What the drones are in each chord that is drawn. */
  get dronePlaces(): readonly string[] {
    return [...this.#root.querySelectorAll(".place")].map((place) => place.textContent ?? "");
  }

  /** Path data of one kind of ink in every bar that is drawn. */
  paths(kind: string): readonly string[] {
    return [...this.#root.querySelectorAll(`.inks .${kind}`)].map((path) => path.getAttribute("d") ?? "");
  }

  get nodes(): number {
    return this.#root.querySelectorAll("*").length;
  }

  /** The elements that draw the trace, one a bar: whether two are the same object says whether a bar was drawn again. */
  get inkElements(): readonly Element[] {
    return [...this.#root.querySelectorAll(".inks .ink")];
  }

  get scrollLeft(): number {
    return this.#scroller.scrollLeft;
  }

  async scrollTo(left: number): Promise<void> {
    this.grid.scrollTo({ left });
    await this.painted();
  }

  /** Whether a popover of the grid is open: the page of keys, or the gracenotes. */
  isOpen(which: "keys" | "gracenotes"): boolean {
    const panel =
      which === "keys"
        ? this.#root.querySelector(".keys")
        : this.#root.querySelector("gracenote-menu")?.shadowRoot?.querySelector("[popover]");
    return panel?.matches(":popover-open") ?? false;
  }

  /** Opens the menu with the mouse's second button, and reads its words; those out of use in brackets. */
  async menuAt(place: GridPlace): Promise<readonly string[]> {
    const { x, y } = this.#pointOf(place);
    const init = { clientX: x, clientY: y, button: 2, pointerType: "mouse", bubbles: true, composed: true, cancelable: true };
    this.#root.querySelector(".surface")?.dispatchEvent(new PointerEvent("contextmenu", init));
    await this.painted();
    return this.#menuItems.map((item) => {
      const words = item.firstChild?.nextSibling?.textContent ?? "";
      return item.disabled ? `(${words})` : words;
    });
  }

  /** Presses a word of the open menu. */
  async pressWord(words: string): Promise<void> {
    this.#menuItems.find((item) => item.textContent?.startsWith(words))?.click();
    await this.settled();
  }

  async pressName(row: ChanterNote): Promise<void> {
    const name = this.#root.querySelector<HTMLElement>(`.name[data-note="${row}"]`);
    name?.dispatchEvent(new PointerEvent("pointerdown", { bubbles: true, button: 0 }));
    name?.dispatchEvent(new PointerEvent("pointerup", { bubbles: true, button: 0 }));
    await this.settled();
  }

  #apply({ edits, label, selection }: EditsAsked & { readonly selection: Selection }): void {
    this.asked.push({ edits, label });
    const outcome = applyEdits(this.score, edits);
    this.refusal = outcome.ok ? "" : outcome.reason;
    if (!outcome.ok) return;
    this.score = outcome.value;
    this.selection = selection;
    this.#show();
  }

  #choose(selection: Selection): void {
    this.selection = selection;
    this.#show();
  }

  #show(): void {
    const { score, selection } = this;
    Object.assign(this.grid, { score, line: "pipes", widths: screenWidths(score), selection });
  }

  #pointOf([bar, eighths, row]: GridPlace): { readonly x: number; readonly y: number } {
    const widths = screenWidths(this.score);
    const left = widths.slice(0, bar).reduce((sum, width) => sum + width, 0);
    const frame = this.score.frames[bar] as Frame;
    const box = this.#scroller.getBoundingClientRect();
    const name = this.#root.querySelector<HTMLElement>(`.name[data-note="${row}"]`);
    const nameBox = name?.getBoundingClientRect();
    if (nameBox === undefined) throw new RangeError(`There is no row ${row}.`);
    const x = box.left + left + ((eighths * 480) / frameTicks(frame)) * (widths[bar] ?? 0) - this.#scroller.scrollLeft;
    return { x, y: (nameBox.top + nameBox.bottom) / 2 };
  }

  #pointer(type: string, { x, y }: { readonly x: number; readonly y: number }, pointerType: Touch, shiftKey: boolean): void {
    const surface = this.#root.querySelector<HTMLElement>(".surface");
    if (surface === null) return;
    // A pointer that the browser does not know cannot be captured.
    surface.setPointerCapture = () => {};
    surface.hasPointerCapture = () => false;
    const init = { clientX: x, clientY: y, pointerType, shiftKey, pointerId: 7, button: type === "pointermove" ? -1 : 0 };
    surface.dispatchEvent(new PointerEvent(type, { ...init, bubbles: true, composed: true, cancelable: true }));
  }

  #cell(bar: number, eighths: number): HTMLElement | null {
    return this.#root.querySelector<HTMLElement>(`[data-bar="${bar}"][data-at="${eighths * 480}"]`);
  }

  get #menuItems(): readonly HTMLButtonElement[] {
    return [...(this.#root.querySelector("hand-menu")?.shadowRoot?.querySelectorAll("button") ?? [])];
  }

  get #scroller(): HTMLElement {
    return this.#root.querySelector(".scroller") as HTMLElement;
  }

  get #root(): ShadowRoot {
    return this.grid.shadowRoot as ShadowRoot;
  }
}
