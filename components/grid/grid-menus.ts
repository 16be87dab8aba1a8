import { gracenoteChoiceAt } from "../../src/arranging/gracenote-offers.ts";
import type { Selection } from "../../src/editing/selection.ts";
import { barAtTime, barStarts, momentAt, scoreTicks } from "../../src/score/bar-starts.ts";
import { addressAt, stretchChosen } from "./asked.ts";
import { chosenNote, chosenTime, type HeldNote } from "./chosen-notes.ts";
import { copyTime } from "./clipboard.ts";
import type { GridHost } from "./grid-host.ts";
import type { GridScene } from "./grid-scene.ts";
import "./gracenote-menu.ts";
import "./hand-menu.ts";
import { type HandWord, handWords } from "./hand-words.ts";
import { handAt, hitAt } from "./hit-test.ts";
import { type GracenotesTaken, graceNote } from "./note-acts.ts";
import { areaOf } from "./overlay.ts";

/** Half the height of a note with its rings, px: its menu keeps clear of that. */
const BESIDE = 12;

/** What the menus need of the grid beyond what the hand needs. */
export interface MenuPlace {
  readonly root: ParentNode;
  readonly scene: GridScene;
  readonly scroller: HTMLElement;
}

/** The menus of the grid: gracenotes for a note, and words for whatever is under the mouse. */
export class GridMenus {
  readonly #host: GridHost;
  readonly #place: () => MenuPlace;

  constructor(host: GridHost, place: () => MenuPlace) {
    this.#host = host;
    this.#place = place;
  }

  /** Shows the choice of gracenotes for the chosen note. */
  showGracenotes(): void {
    const { root, scene, scroller } = this.#place();
    const chosen = this.#chosen();
    if (chosen === null) return;
    const { left, right, y } = areaOf(scene, chosen);
    const box = scroller.getBoundingClientRect();
    const menu = root.querySelector("gracenote-menu");
    const choice = gracenoteChoiceAt(this.#host.score, addressAt(this.#host.score, this.#host.pipes.id, chosen.from));
    const toWindow = box.left - scroller.scrollLeft;
    const note = { left: toWindow + left, right: toWindow + right, top: box.top + y - BESIDE, bottom: box.top + y + BESIDE };
    if (choice !== null) void menu?.show(choice, note);
  }

  readonly gracenotesChosen = (event: CustomEvent<GracenotesTaken>): void => {
    const { score, pipes, caret } = this.#host;
    const chosen = this.#chosen();
    if (chosen !== null) this.#host.ask(graceNote(score, pipes.id, chosen, event.detail));
    this.#host.moveCaret(caret, true);
  };

  /** The keys come back to the cell they were on. */
  readonly left = (): void => this.#host.moveCaret({ ...this.#host.caret }, true);

  /** The second button of the mouse, or the key for it: chooses what is there, and shows what can be done with it. */
  readonly asked = (event: MouseEvent): void => {
    // A finger that rests chooses a stretch instead.
    const isFinger = event instanceof PointerEvent && event.pointerType === "touch";
    event.preventDefault();
    if (isFinger) return;
    const { root, scroller } = this.#place();
    const { score, pipes, step } = this.#host;
    const isKey = (event.target as HTMLElement).getAttribute("role") === "gridcell";
    const selection = isKey ? this.#underKeys() : this.#underMouse(event, scroller);
    this.#host.choose(selection);
    const words = handWords(score, pipes.id, selection, step);
    if (words !== null) void root.querySelector("hand-menu")?.show(words, event.clientX, event.clientY);
  };

  readonly wordPressed = (event: CustomEvent<{ readonly word: HandWord }>): void => {
    const { does } = event.detail.word;
    const { score, pipes, caret } = this.#host;
    this.#host.moveCaret(caret, true);
    if (does.kind === "gracenotes") this.showGracenotes();
    else if (does.kind === "audition") this.#host.tell("audition-asked");
    else if (does.kind === "copy") copyTime(score, pipes.id, does.from, does.to);
    else this.#host.ask(does.asked);
  };

  #chosen(): HeldNote | null {
    const { score, pipes, selection } = this.#host;
    return chosenNote(score, pipes.id, selection);
  }

  /** What is chosen, or the bar the keys are in. */
  #underKeys(): Selection {
    const { score, pipes, selection, caret } = this.#host;
    return chosenTime(score, pipes.id, selection) === null ? this.#barAt(Math.min(caret.time, scoreTicks(score.frames) - 1)) : selection;
  }

  /** The chosen stretch where the mouse is in it, the note under the mouse, or the bar. */
  #underMouse(event: MouseEvent, scroller: HTMLElement): Selection {
    const { score, pipes, selection, field } = this.#host;
    const box = scroller.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left + scroller.scrollLeft, event.clientY - box.top];
    const { time } = handAt(field, x, y);
    const stretch = selection.kind === "stretch" ? chosenTime(score, pipes.id, selection) : null;
    if (stretch !== null && stretch.from <= time && time < stretch.to) return selection;
    const hit = hitAt(field, x, y);
    if (hit.kind === "row" || y < field.measures.chords) return this.#barAt(time);
    return { kind: "note", at: { line: pipes.id, ...momentAt(score.frames, hit.held.from) } };
  }

  #barAt(time: number): Selection {
    const { score, pipes } = this.#host;
    const starts = barStarts(score.frames);
    const bar = barAtTime(score.frames, time);
    return stretchChosen(score, pipes.id, starts[bar] ?? 0, starts[bar + 1] ?? 0);
  }
}
