import { html, LitElement, type PropertyDeclarations, type PropertyValues } from "lit";
import type { Selection } from "../../src/editing/selection.ts";
import { type BarDrawing, type Box, STAFF_HEIGHT } from "../../src/engraving/drawing.ts";
import { eventOfPart, type FoundEvent, startOfEvent } from "../../src/engraving/note-steps.ts";
import { spokenEvent } from "../../src/engraving/part-words.ts";
import type { Address, Moment } from "../../src/score/address.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { lineOf } from "../../src/score/line-of.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { momentOnBeat } from "../../src/score/moment-on-beat.ts";
import { findingsInBar } from "../../src/score/numbered-findings.ts";
import type { Line, Score } from "../../src/score/score.ts";
import type { Ticks } from "../../src/units/ticks.ts";
import type { ProposedPlaces } from "../session/proposal.ts";
import { styleMap } from "../shared/style-map.ts";
import { barElement, classNotes, repaint, svgElement } from "./bar-element.ts";
import { chosenStarts } from "./chosen-starts.ts";
import { momentForKey } from "./note-keys.ts";
import { ringPlace } from "./ring-place.ts";

/** A bar's drawing and where its top left stands, in px of the painted surface. */
export interface PlacedBar {
  readonly bar: number;
  readonly drawing: BarDrawing;
  readonly x: number;
  readonly y: number;
  /** Px to a desk pixel. */
  readonly scale: number;
}

interface PaintedBar extends PlacedBar {
  readonly element: SVGGElement;
  /** Where its notes that are shown as chosen begin; `null` after it was painted, until they are shown. */
  chosen: ReadonlySet<Ticks> | null;
  /** Where its notes that are shown as proposed begin. */
  proposed: ReadonlySet<number>;
}

const NO_NOTES: ReadonlySet<number> = new Set();

/** How far from a note a press still finds it, px. */
const REACH = 22;

/** How wide the moment line is. */
const MOMENT = 1.5;

/** Radius of a finding's ring. */
const RING = 7.5;

/** What lies over the bars, or stands beside them: when only this changes, the bars are left as they are. */
const OVER_BARS: ReadonlySet<PropertyKey> = new Set(["selection", "findings", "chosenFinding", "proposed", "focusAt", "keyShown"]);

/** Whether the reader wants nothing to glide. */
const STILL = matchMedia("(prefers-reduced-motion: reduce)");

/** A note of a part has been chosen, by hand or by keyboard. */
export type NoteChosenEvent = CustomEvent<{ readonly address: Address }>;

/**
 * What every view of one part has in common: it paints only bars that changed, shows what is chosen and what sounds, and lets notes be
 * chosen with mouse, touch and arrow keys. Where bars stand is the view's own business.
 *
 * @fires note-chosen NoteChosenEvent
 */
export abstract class PartElement extends LitElement {
  static override properties: PropertyDeclarations = {
    score: { attribute: false },
    line: { attribute: false },
    selection: { attribute: false },
    findings: { attribute: false },
    chosenFinding: { attribute: false },
    proposed: { attribute: false },
    focusAt: { state: true },
  };

  declare score: Score;
  declare line: LineId;
  declare selection: Selection;
  declare findings: readonly Finding[];
  /** The one of them that is being looked at, if any. */
  declare chosenFinding: Finding | null;
  /** Where the part shown is only proposed. */
  declare proposed: ProposedPlaces | null;
  /** The note the arrow keys are at, where that is not the chosen one. */
  declare protected focusAt: Moment | null;

  #moment: Moment | null = null;
  readonly #painted = new Map<number, PaintedBar>();
  /** What the surface shows: places, and rings as one text. */
  #shownPlaces: readonly PlacedBar[] | null = null;
  #shownRings = "";
  #soundingBar = -1;
  /** What `placedBars` said last, so that bars are looked up once for each update. */
  protected placed: readonly PlacedBar[] = [];

  constructor() {
    super();
    this.line = "";
    this.selection = { kind: "nothing" };
    this.findings = [];
    this.chosenFinding = null;
    this.proposed = null;
    this.focusAt = null;
  }

  /** The playing position, or null while nothing plays. Set with every frame, so it goes past Lit, straight to the line. */
  get moment(): Moment | null {
    return this.#moment;
  }
  set moment(moment: Moment | null) {
    this.#moment = moment;
    if (this.hasUpdated) this.showMoment();
  }

  /** The bars in view, in order, each with its place. */
  protected abstract placedBars(line: Line): readonly PlacedBar[];

  /** The surface that bars are painted on: `.bars`, `.rings` and `.moment` inside it. */
  protected get surface(): SVGSVGElement | null {
    return this.renderRoot.querySelector<SVGSVGElement>("svg.surface");
  }

  /** The line shown, or null while there is none. */
  protected get shownLine(): Line | null {
    return this.score === undefined ? null : lineOf(this.score, this.line);
  }

  protected override willUpdate(changed: PropertyValues): void {
    if ([...changed.keys()].some((name) => !OVER_BARS.has(name))) this.place();
  }

  protected override updated(_changed: PropertyValues): void {
    this.paint();
  }

  /** Finds the bars in view anew. */
  protected place(): void {
    const line = this.shownLine;
    this.placed = line === null ? [] : this.placedBars(line);
  }

  /** Brings the surface in line with the score: what is drawn the same is left as it is. */
  protected paint(): void {
    const line = this.shownLine;
    const layer = this.surface?.querySelector<SVGGElement>(".bars");
    if (line === null || layer === undefined || layer === null) return;
    if (this.placed !== this.#shownPlaces || (layer.childElementCount === 0 && this.placed.length > 0)) this.#paintBars(layer);
    this.#showProposed();
    this.#showChosen(line);
    this.#showFindings(line);
    this.showMoment();
  }

  #paintBars(layer: SVGGElement): void {
    const kept = new Set(this.placed.map(({ bar }) => bar));
    for (const [bar, painted] of this.#painted) {
      if (kept.has(bar)) continue;
      painted.element.remove();
      this.#painted.delete(bar);
    }
    for (const placed of this.placed) this.#paintBar(layer, placed);
    this.#shownPlaces = this.placed;
  }

  #paintBar(layer: SVGGElement, placed: PlacedBar): void {
    const before = this.#painted.get(placed.bar);
    const isThere = before !== undefined && before.element.parentNode === layer;
    const same = isThere && before.drawing === placed.drawing;
    const element = isThere ? before.element : barElement(placed.drawing);
    if (!isThere) layer.append(element);
    else if (!same) repaint(element, before.drawing, placed.drawing);
    if (!isThere || before.x !== placed.x || before.y !== placed.y || before.scale !== placed.scale) {
      const size = placed.scale === 1 ? "" : ` scale(${placed.scale})`;
      element.setAttribute("transform", `translate(${placed.x} ${placed.y})${size}`);
    }
    this.#painted.set(placed.bar, { ...placed, element, chosen: same ? before.chosen : null, proposed: before?.proposed ?? NO_NOTES });
  }

  /** What is proposed is steel: its gracenotes, or the note where it has none. */
  #showProposed(): void {
    for (const painted of this.#painted.values()) {
      const wanted = this.proposed?.get(painted.bar) ?? NO_NOTES;
      const isFresh = painted.chosen === null && (wanted !== NO_NOTES || painted.proposed !== NO_NOTES);
      if (wanted === painted.proposed && !isFresh) continue;
      const graced = new Set(painted.drawing.groups.flatMap(({ role, at }) => (role === "gracenotes" && at !== null ? [at] : [])));
      classNotes(painted.element, "proposed", wanted, "path.gracenotes");
      classNotes(painted.element, "proposed", new Set([...wanted].filter((at) => !graced.has(at as Ticks))), "path.note");
      painted.proposed = wanted;
    }
  }

  /** The chosen note or stretch is steel, in the part it was chosen in and in those that double it. */
  #showChosen(line: Line): void {
    const starts = chosenStarts(this.score, line, this.selection);
    for (const painted of this.#painted.values()) {
      if (painted.bar < 0) continue;
      const chosen = starts(painted.bar);
      if (painted.chosen === null || !areSame(painted.chosen, chosen)) classNotes(painted.element, "chosen", chosen);
      painted.chosen = chosen;
    }
  }

  #showFindings(line: Line): void {
    const layer = this.surface?.querySelector<SVGGElement>(".rings");
    if (layer === undefined || layer === null) return;
    const rings: Ring[] = [];
    for (const painted of this.#painted.values()) {
      for (const { finding, number } of findingsInBar(this.findings, line.id, painted.bar)) {
        const { x, y } = ringPlace(painted.drawing, startOfEvent(this.score, line, finding.address), RING);
        const [left, top] = [painted.x + x * painted.scale, painted.y + y * painted.scale];
        rings.push({ number, left, top, chosen: finding === this.chosenFinding });
      }
    }
    const shown = JSON.stringify(rings);
    if (shown === this.#shownRings && layer.childElementCount === rings.length) return;
    this.#shownRings = shown;
    layer.replaceChildren(...rings.map(ringElement));
  }

  /** Moves the moment line and tells the sounding note from the others. */
  protected showMoment(): void {
    const line = this.shownLine;
    const mark = this.surface?.querySelector<SVGRectElement>(".moment");
    if (line === null || mark === undefined || mark === null) return;
    const moment = this.#moment;
    const painted = moment === null ? undefined : this.#painted.get(moment.bar);
    const previous = this.#painted.get(this.#soundingBar);
    if (previous !== undefined && previous !== painted) classNotes(previous.element, "sounding", new Set());
    this.#soundingBar = painted?.bar ?? -1;
    const display = painted === undefined ? "none" : "";
    if (mark.style.display !== display) mark.style.display = display;
    if (moment === null || painted === undefined) return;
    const at = startOfEvent(this.score, line, moment);
    classNotes(painted.element, "sounding", new Set(at === null ? [] : [at]));
    const frame = this.score.frames[moment.bar];
    const shown = frame !== undefined && STILL.matches ? momentOnBeat(frame, moment) : moment;
    const { x, top, height } = this.momentLine(painted, shown);
    mark.setAttribute("x", String(Math.round((x - MOMENT / 2) * 10) / 10));
    mark.setAttribute("y", String(top));
    mark.setAttribute("height", String(height));
  }

  /** Where the moment line stands in a painted bar. On the desk time is linear in a bar, as on the grid. */
  protected momentLine(placed: PlacedBar, { bar, at }: Moment): { readonly x: number; readonly top: number; readonly height: number } {
    const frame = this.score.frames[bar];
    const share = frame === undefined ? 0 : at / frameTicks(frame);
    const { x, y, drawing, scale } = placed;
    return { x: x + drawing.width * scale * share, top: y - 20 * scale, height: (STAFF_HEIGHT + 40) * scale };
  }

  /** The notes as a list for the keyboard and the screen reader: one option stands for the note the keys are at. */
  protected noteList(line: Line) {
    const found = this.#atKeys(line);
    const spoken = found === null ? "No notes" : spokenEvent(this.score, line, found.bar, found.at, found.event);
    const box = found === null ? null : this.#boxOf(found);
    const place =
      box === null
        ? { display: "none" }
        : { left: `${box.left}px`, top: `${box.top}px`, width: `${box.right - box.left}px`, height: `${box.bottom - box.top}px` };
    return html`<div
      class="notes"
      role="listbox"
      tabindex="0"
      aria-label="Notes of ${line.name}"
      aria-activedescendant="at"
      @keydown=${this.#keyPressed}
      @pointerdown=${this.#pressed}
    >
      <div id="at" role="option" aria-selected=${this.#isChosen(found)} aria-label=${spoken} style=${styleMap(place)}></div>
    </div>`;
  }

  #isChosen(found: FoundEvent | null): "true" | "false" {
    const { selection } = this;
    const chosen = found !== null && selection.kind === "note" && selection.at.bar === found.bar && selection.at.at === found.at;
    return chosen ? "true" : "false";
  }

  /** Where the keys are: at the chosen note, or at the first in view. */
  #atKeys(line: Line): FoundEvent | null {
    const { selection } = this;
    const chosen = selection.kind === "note" && selection.at.line === line.id ? selection.at : this.focusAt;
    const first = this.placed.find(({ bar }) => bar >= 0);
    const moment = chosen ?? { bar: first?.bar ?? 0, at: 0 as Ticks };
    return eventOfPart(this.score, line, moment) ?? eventOfPart(this.score, line, { bar: 0, at: 0 as Ticks });
  }

  /** A note's box on the surface; null while its bar is not painted. */
  #boxOf({ bar, at }: FoundEvent): Box | null {
    const placed = this.placed.find((one) => one.bar === bar);
    const group = placed?.drawing.groups.find((one) => one.at === at && (one.role === "note" || one.role === "rest"));
    if (placed === undefined || group === undefined) return null;
    const { x, y, scale } = placed;
    const { left, top, right, bottom } = group.box;
    return { left: x + left * scale - this.shift, top: y + top * scale, right: x + right * scale - this.shift, bottom: y + bottom * scale };
  }

  /** How far the surface is moved to the left. */
  protected get shift(): number {
    return 0;
  }

  readonly #keyPressed = (event: KeyboardEvent): void => {
    const line = this.shownLine;
    if (line === null || event.altKey || event.ctrlKey || event.metaKey) return;
    const here = this.#atKeys(line);
    if (here === null) return;
    const target = momentForKey(event.key, this.score, line, here);
    if (target === undefined) return;
    event.preventDefault();
    if (target !== null) this.#choose(target);
  };

  readonly #pressed = (event: PointerEvent): void => {
    const line = this.shownLine;
    const surface = this.surface;
    if (line === null || surface === null || event.button !== 0) return;
    const frame = surface.getBoundingClientRect();
    const x = event.clientX - frame.left + this.shift;
    const y = event.clientY - frame.top;
    let best: { readonly moment: Moment; readonly distance: number } | null = null;
    for (const placed of this.#painted.values()) {
      for (const group of placed.drawing.groups) {
        if (group.at === null || (group.role !== "note" && group.role !== "rest" && group.role !== "gracenotes")) continue;
        const distance = distanceTo(group.box, (x - placed.x) / placed.scale, (y - placed.y) / placed.scale) * placed.scale;
        if (distance <= REACH && (best === null || distance < best.distance))
          best = { moment: { bar: placed.bar, at: group.at }, distance };
      }
    }
    if (best !== null) this.#choose(best.moment);
  };

  #choose({ bar, at }: Moment): void {
    this.focusAt = { bar, at };
    const detail = { address: { line: this.line, bar, at } };
    this.dispatchEvent(new CustomEvent("note-chosen", { detail, bubbles: true, composed: true }));
  }
}

/** A finding's ring: its number, and where its middle stands, px. */
interface Ring {
  readonly number: number;
  readonly left: number;
  readonly top: number;
  readonly chosen: boolean;
}

function ringElement({ number, left, top, chosen }: Ring): SVGGElement {
  const ring = svgElement("g", { class: chosen ? "ring chosen" : "ring", transform: `translate(${left} ${top})` });
  const words = svgElement("text", { y: 4 });
  words.textContent = String(number);
  ring.append(svgElement("circle", { r: RING }), words);
  return ring;
}

function areSame(one: ReadonlySet<Ticks>, other: ReadonlySet<Ticks>): boolean {
  return one.size === other.size && [...one].every((at) => other.has(at));
}

function distanceTo({ left, top, right, bottom }: Box, x: number, y: number): number {
  return Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom));
}
