import { NOTHING } from "../../src/editing/selection.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import { noteName } from "../../src/pipes/note-names.ts";
import { speaks } from "../../src/pipes/sounding.ts";
import { barAtTime, barStarts, momentAt, scoreTicks } from "../../src/score/bar-starts.ts";
import type { BarRange } from "../../src/score/edit.ts";
import { assertNever } from "../../src/units/assert-never.ts";
import { type Asked, stretchChosen } from "./asked.ts";
import { duplicateBars, insertBar, pasteStretch, removeBars } from "./bar-acts.ts";
import { barsOf, chosenNote, chosenStretch, chosenTime, type HeldNote, heldNoteAt } from "./chosen-notes.ts";
import { copiedStretch, copyTime } from "./clipboard.ts";
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
    switch (act.kind) {
      case "go":
        this.#go(this.#goal(act.to, caret.time), act.stretching);
        break;
      case "pitch":
        this.#changePitch(act.by);
        break;
      case "length":
        this.#onChosen((held) => lengthenBy(score, pipes.id, held, act.by, step));
        break;
      case "nudge":
        this.#nudge(act.by);
        break;
      case "letter":
        this.#type(typedNote(act.letter, this.#lastNote(), act.crossFingered));
        break;
      case "step":
        host.chooseStep(act.step);
        host.say(`Drawing in ${stepEntry(act.step).words}.`);
        break;
      case "place":
        this.#type(caret.note);
        break;
      case "stretch":
        this.#beginStretch();
        break;
      case "everything":
        this.#anchor = 0;
        host.choose(stretchChosen(score, pipes.id, 0, scoreTicks(score.frames)));
        break;
      case "split":
        this.#onChosen((held) => splitNote(score, pipes.id, held, caret.time));
        break;
      case "tie":
        this.#onChosen((held) => tieNote(score, pipes.id, held, caret.time));
        break;
      case "hold":
        host.ask(holdThrough(score, pipes.id, caret.time), "There is no rest here to hold through.");
        break;
      case "strike-in":
        this.#onChosen((held) => markStrikeIn(score, pipes.id, held));
        break;
      case "cut-off":
        this.#onChosen((held) => markCutOff(score, pipes.id, held));
        break;
      case "gracenotes":
        if (this.#chosen === null) host.say(CHOOSE_FIRST);
        else host.showGracenotes();
        break;
      case "grace-line":
        host.tell("gracing-asked");
        break;
      case "audition":
        host.tell("audition-asked");
        break;
      case "delete":
        this.#remove();
        break;
      case "copy":
        this.#copy();
        break;
      case "cut":
        this.#copy();
        this.#remove();
        break;
      case "paste":
        this.#paste();
        break;
      case "duplicate":
        host.ask(duplicateBars(score, pipes.id, this.#bars()));
        break;
      case "insert-bar":
        host.ask(insertBar(this.#bars().last + 1));
        break;
      case "remove-bars":
        host.ask(removeBars(this.#bars()));
        break;
      case "undo":
        host.tell("undo-asked");
        break;
      case "redo":
        host.tell("redo-asked");
        break;
      case "play":
        host.playFrom(caret.time);
        break;
      case "keys":
        host.showKeys();
        break;
      case "let-go":
        this.#anchor = null;
        host.choose(NOTHING);
        break;
      default:
        assertNever(act);
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

  /** Goes to a column; a note found there is chosen. */
  goTo(time: number): void {
    this.#go(time, false);
  }

  /** Acts on the chosen note; on the one the keys are on where nothing is chosen. */
  #onChosen(act: (held: HeldNote) => Asked | null): void {
    const { score, pipes, selection, caret } = this.#host;
    const isFree = selection.kind === "nothing" && caret.time < scoreTicks(score.frames);
    const chosen = this.#chosen ?? (isFree ? heldNoteAt(score, pipes.id, caret.time) : null);
    this.#host.ask(chosen === null ? null : act(chosen), CHOOSE_FIRST);
  }

  /** Goes there, drawing the stretch along if asked to; a note found there is chosen otherwise. */
  #go(time: number, stretching: boolean): void {
    if (stretching) {
      this.#stretchTo(time);
      return;
    }
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
      this.#host.ask(changePitch(score, pipes.id, chosen, note), "There is no row beyond this one.");
      return;
    }
    const stretch = chosenStretch(score, pipes.id, this.#host.selection);
    if (stretch !== null) {
      this.#host.ask(changePitches(score, pipes.id, stretch.from, stretch.to, beside), CHOOSE_FIRST);
      return;
    }
    this.#host.moveCaret({ ...caret, note: beside(caret.note) }, true);
  }

  #nudge(by: 1 | -1): void {
    const { score, pipes, caret, step } = this.#host;
    const chosen = this.#chosen;
    if (chosen === null) {
      this.#host.say(CHOOSE_FIRST);
      return;
    }
    const from = chosen.from + by * stepEntry(step).ticks;
    this.#host.moveCaret({ ...caret, time: Math.max(0, from) }, true);
    this.#host.ask(from < 0 ? null : moveNote(score, pipes.id, chosen, from, chosen.note), "There is no time before the first bar.");
  }

  #type(note: ChanterNote | null): void {
    const { score, pipes, caret, step } = this.#host;
    if (note === null) {
      this.#host.say("That letter has no cross-fingered note.");
      return;
    }
    if (!speaks(pipes.setup, note)) {
      this.#host.say(`${noteName(note)} does not speak in this setup.`);
      return;
    }
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
    if (time === null) {
      this.#host.say(CHOOSE_FIRST);
      return;
    }
    copyTime(score, pipes.id, time.from, time.to);
    this.#host.say("Copied.");
  }

  #paste(): void {
    const { score, pipes, caret, selection } = this.#host;
    const clip = copiedStretch();
    // Where the keys are, which may be in the middle of a held note; a chosen stretch is pasted over from its start.
    const from = (selection.kind === "stretch" ? this.#chosenTime()?.from : null) ?? caret.time;
    this.#host.ask(clip === null ? null : pasteStretch(score, pipes.id, from, clip), "Nothing is copied.");
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
