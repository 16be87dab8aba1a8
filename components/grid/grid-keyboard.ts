import { copyStretch } from "../../src/editing/clip.ts";
import { NOTHING } from "../../src/editing/selection.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import { noteName } from "../../src/pipes/note-names.ts";
import { speaks } from "../../src/pipes/sounding.ts";
import { barAtTime, barStarts, momentAt, scoreTicks } from "../../src/score/bar-starts.ts";
import type { BarRange, StretchClip } from "../../src/score/edit.ts";
import { assertNever } from "../../src/units/assert-never.ts";
import { stretchChosen } from "./asked.ts";
import { duplicateBars, insertBar, pasteStretch, removeBars } from "./bar-acts.ts";
import { barsOf, chosenNote, chosenStretch, chosenTime, type HeldNote, heldNoteAt } from "./chosen-notes.ts";
import { columnAt, columnBeside, columnEnd } from "./grid-columns.ts";
import type { GridHost } from "./grid-host.ts";
import { noteBeside } from "./grid-rows.ts";
import { stepEnd, stepEntry } from "./grid-step.ts";
import { type Going, type KeyAct, keyAct } from "./key-acts.ts";
import {
  changePitch,
  changePitches,
  holdThrough,
  lengthenBy,
  markCutOff,
  markStrikeIn,
  moveNote,
  placeNote,
  removeTime,
  splitNote,
  tieNote,
} from "./note-acts.ts";
import { typedNote } from "./typed-note.ts";

const CHOOSE_FIRST = "Choose a note first.";

/** What was copied last, on whichever grid: it may be pasted into another sketch. */
let copied: StretchClip | null = null;

/** The grid by keys. */
export class GridKeyboard {
  readonly #host: GridHost;
  /** Where a stretch that the keys choose began. */
  #anchor: number | null = null;

  constructor(host: GridHost) {
    this.#host = host;
  }

  readonly pressed = (event: KeyboardEvent): void => {
    const isNote = this.#chosen !== null;
    const act = keyAct({ key: event.key, shift: event.shiftKey, command: event.ctrlKey || event.metaKey, alt: event.altKey }, isNote);
    if (act === null || event.isComposing) return;
    event.preventDefault();
    event.stopPropagation();
    this.#do(act);
  };

  get #chosen(): HeldNote | null {
    const { score, pipes, selection } = this.#host;
    return chosenNote(score, pipes.id, selection);
  }

  #do(act: KeyAct): void {
    const host = this.#host;
    const { score, pipes, caret, step } = host;
    const chosen = this.#chosen;
    switch (act.kind) {
      case "go":
        return act.stretching ? this.#stretchTo(this.#goal(act.to, caret.time)) : this.#go(this.#goal(act.to, caret.time));
      case "pitch":
        return this.#changePitch(act.by);
      case "length":
        return host.ask(chosen === null ? null : lengthenBy(score, pipes.id, chosen, act.by, step), CHOOSE_FIRST);
      case "nudge":
        return this.#nudge(act.by);
      case "letter":
        return this.#type(typedNote(act.letter, this.#lastNote(), act.crossFingered));
      case "step":
        host.chooseStep(act.step);
        return host.say(`Drawing in ${stepEntry(act.step).words}.`);
      case "place":
        return this.#type(caret.note);
      case "stretch":
        return this.#beginStretch();
      case "everything":
        this.#anchor = 0;
        return host.choose(stretchChosen(score, pipes.id, 0, scoreTicks(score.frames)));
      case "split":
        return host.ask(chosen === null ? null : splitNote(score, pipes.id, chosen, caret.time), CHOOSE_FIRST);
      case "tie":
        return host.ask(chosen === null ? null : tieNote(score, pipes.id, chosen, caret.time), CHOOSE_FIRST);
      case "hold":
        return host.ask(holdThrough(score, pipes.id, caret.time), "There is no rest here to hold through.");
      case "strike-in":
        return host.ask(chosen === null ? null : markStrikeIn(score, pipes.id, chosen), CHOOSE_FIRST);
      case "cut-off":
        return host.ask(chosen === null ? null : markCutOff(score, pipes.id, chosen), CHOOSE_FIRST);
      case "gracenotes":
        return chosen === null ? host.say(CHOOSE_FIRST) : host.showGracenotes();
      case "delete":
        return this.#remove();
      case "copy":
        return this.#copy();
      case "cut":
        this.#copy();
        return this.#remove();
      case "paste":
        return copied === null
          ? host.say("Nothing is copied.")
          : host.ask(pasteStretch(score, pipes.id, this.#chosenTime()?.from ?? caret.time, copied), "Nothing is copied.");
      case "duplicate":
        return host.ask(duplicateBars(score, pipes.id, this.#bars()));
      case "insert-bar":
        return host.ask(insertBar(this.#bars().last + 1));
      case "remove-bars":
        return host.ask(removeBars(this.#bars()));
      case "undo":
        return host.tell("undo-asked");
      case "redo":
        return host.tell("redo-asked");
      case "play":
        return host.playFrom(caret.time);
      case "keys":
        return host.showKeys();
      case "let-go":
        this.#anchor = null;
        return host.choose(NOTHING);
      default:
        return assertNever(act);
    }
  }

  /** Where a key leads, from the start of the score. */
  #goal(to: Going, from: number): number {
    const { score, pipes, step } = this.#host;
    const starts = barStarts(score.frames);
    const bar = barAtTime(score.frames, from);
    switch (to) {
      case "next":
        return columnBeside(pipes, score.frames, from, 1, step);
      case "previous":
        return columnBeside(pipes, score.frames, from, -1, step);
      case "next-bar":
        return starts[bar + 1] ?? from;
      case "previous-bar":
        return starts[from === starts[bar] ? Math.max(0, bar - 1) : bar] ?? 0;
      case "bar-start":
        return starts[bar] ?? 0;
      case "bar-end":
        return columnAt(pipes, score.frames, (starts[bar + 1] ?? 1) - 1, step);
      case "start":
        return 0;
      case "end":
        return scoreTicks(score.frames);
      default:
        return assertNever(to);
    }
  }

  /** Goes there; a note found there is chosen. */
  #go(time: number): void {
    const { score, pipes, caret } = this.#host;
    this.#anchor = null;
    const held = heldNoteAt(score, pipes.id, time);
    this.#host.moveCaret({ time, note: held?.note ?? caret.note }, true);
    this.#host.choose(held === null ? NOTHING : { kind: "note", at: { line: pipes.id, ...momentAt(score.frames, held.from) } });
  }

  #beginStretch(): void {
    const { score, pipes, caret, step } = this.#host;
    const chosen = this.#chosenTime();
    this.#anchor = chosen?.from ?? caret.time;
    const end = chosen?.to ?? columnEnd(pipes, score.frames, caret.time, step);
    this.#host.choose(stretchChosen(score, pipes.id, this.#anchor, end));
  }

  /** The stretch from where it began up to the column the keys go to, both included. */
  #stretchTo(goal: number): void {
    const { score, pipes, caret, step } = this.#host;
    this.#anchor ??= chosenStretch(score, pipes.id, this.#host.selection)?.from ?? caret.time;
    this.#host.moveCaret({ ...caret, time: goal }, true);
    const from = Math.min(this.#anchor, goal);
    const to = columnEnd(pipes, score.frames, Math.max(this.#anchor, goal), step);
    this.#host.choose(stretchChosen(score, pipes.id, from, Math.max(to, from)));
  }

  #changePitch(by: 1 | -1): void {
    const { score, pipes, caret, field } = this.#host;
    const beside = (note: ChanterNote): ChanterNote => noteBeside(field.rows, note, field.height(note), by);
    const chosen = this.#chosen;
    if (chosen !== null) {
      const note = beside(chosen.note);
      this.#host.moveCaret({ ...caret, note }, false);
      return this.#host.ask(changePitch(score, pipes.id, chosen, note), "There is no row beyond this one.");
    }
    const stretch = chosenStretch(score, pipes.id, this.#host.selection);
    if (stretch !== null) return this.#host.ask(changePitches(score, pipes.id, stretch.from, stretch.to, beside), CHOOSE_FIRST);
    this.#host.moveCaret({ ...caret, note: beside(caret.note) }, true);
  }

  #nudge(by: 1 | -1): void {
    const { score, pipes, caret, step } = this.#host;
    const chosen = this.#chosen;
    if (chosen === null) return this.#host.say(CHOOSE_FIRST);
    const from = chosen.from + by * stepEntry(step).ticks;
    this.#host.moveCaret({ ...caret, time: Math.max(0, from) }, true);
    this.#host.ask(from < 0 ? null : moveNote(score, pipes.id, chosen, from, chosen.note), "There is no time before the first bar.");
  }

  #type(note: ChanterNote | null): void {
    const { score, pipes, caret, step } = this.#host;
    if (note === null) return this.#host.say("That letter has no cross-fingered note.");
    if (!speaks(pipes.setup, note)) return this.#host.say(`${noteName(note)} does not speak in this setup.`);
    const atEnd = caret.time >= scoreTicks(score.frames);
    const to = atEnd ? caret.time + stepEntry(step).ticks : stepEnd(score.frames, caret.time, step);
    this.#host.ask(placeNote(score, pipes.id, caret.time, to, note, step));
    this.#host.moveCaret({ time: to, note }, true);
  }

  /** The note before the keys, which says which of two As or Gs is near; the row they are on where there is none. */
  #lastNote(): ChanterNote {
    const { score, pipes, caret } = this.#host;
    return heldNoteAt(score, pipes.id, caret.time - 1)?.note ?? caret.note;
  }

  #remove(): void {
    const { score, pipes } = this.#host;
    const time = this.#chosenTime();
    this.#host.ask(time === null ? null : removeTime(score, pipes.id, time.from, time.to), CHOOSE_FIRST);
    if (time !== null) this.#host.moveCaret({ ...this.#host.caret, time: time.from }, true);
  }

  #copy(): void {
    const { score, pipes } = this.#host;
    const time = this.#chosenTime();
    if (time === null) return this.#host.say(CHOOSE_FIRST);
    copied = copyStretch(score, pipes.id, momentAt(score.frames, time.from), momentAt(score.frames, time.to));
    this.#host.say("Copied.");
  }

  #chosenTime(): { readonly from: number; readonly to: number } | null {
    const { score, pipes, selection } = this.#host;
    return chosenTime(score, pipes.id, selection);
  }

  /** The bars of the chosen stretch, or the one the keys are in. */
  #bars(): BarRange {
    const { score, pipes, selection, caret } = this.#host;
    const stretch = chosenStretch(score, pipes.id, selection);
    const time = Math.min(caret.time, scoreTicks(score.frames) - 1);
    return stretch === null ? barsOf(score, time, time + 1) : barsOf(score, stretch.from, stretch.to);
  }
}
