import type { Selection } from "../../src/editing/selection.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";
import type { Asked } from "./asked.ts";
import { duplicateBars, insertBar, pasteStretch, removeBars } from "./bar-acts.ts";
import { barsOf, chosenNote, chosenStretch, type HeldNote } from "./chosen-notes.ts";
import { copiedStretch } from "./clipboard.ts";
import type { GridStep } from "./grid-step.ts";
import { lengthenBy, markCutOff, markStrikeIn, removeTime, splitNote, tieNote } from "./note-acts.ts";

/** An act as a word to press, for a hand without keys. */
export interface HandWord {
  readonly words: string;
  /** The key that does the same. */
  readonly key: string;
  readonly does: /** Null: it cannot be done now. */
    | { readonly kind: "ask"; readonly asked: Asked | null }
    | { readonly kind: "gracenotes" }
    | { readonly kind: "audition" }
    | { readonly kind: "copy"; readonly from: number; readonly to: number };
}

/** The words for what is chosen; null when nothing is. The first six are the ones a phone shows. */
export function handWords(score: Score, line: LineId, selection: Selection, step: GridStep): readonly HandWord[] | null {
  const note = chosenNote(score, line, selection);
  if (note !== null) return noteWords(score, line, note, step);
  const stretch = chosenStretch(score, line, selection);
  return stretch === null ? null : stretchWords(score, line, stretch.from, stretch.to);
}

function noteWords(score: Score, line: LineId, note: HeldNote, step: GridStep): readonly HandWord[] {
  return [
    asking("Shorter", "Shift ←", lengthenBy(score, line, note, -1, step)),
    asking("Longer", "Shift →", lengthenBy(score, line, note, 1, step)),
    { words: "Gracenote", key: ",", does: { kind: "gracenotes" } },
    asking("Split", "/", splitNote(score, line, note, note.from)),
    asking("Tie", "T", tieNote(score, line, note, note.from)),
    asking("Delete", "Delete", removeTime(score, line, note.from, note.to)),
    asking(note.event.strikeIn ? "No strike-in" : "Strike-in", "[", markStrikeIn(score, line, note)),
    asking(note.event.cutOff ? "No cut-off" : "Cut-off", "]", markCutOff(score, line, note)),
    { words: "Hear in versions", key: "V", does: { kind: "audition" } },
    { words: "Copy", key: "Ctrl C", does: { kind: "copy", from: note.from, to: note.to } },
    pasting(score, line, note.from),
  ];
}

function stretchWords(score: Score, line: LineId, from: number, to: number): readonly HandWord[] {
  const bars = barsOf(score, from, to);
  const plural = bars.first === bars.last ? "bar" : "bars";
  return [
    { words: "Copy", key: "Ctrl C", does: { kind: "copy", from, to } },
    pasting(score, line, from),
    asking(`Duplicate ${plural}`, "Ctrl D", duplicateBars(score, line, bars)),
    asking("Insert bar", "+", insertBar(bars.last + 1)),
    asking(`Remove ${plural}`, "−", removeBars(bars)),
    asking("Delete", "Delete", removeTime(score, line, from, to)),
  ];
}

function pasting(score: Score, line: LineId, from: number): HandWord {
  const clip = copiedStretch();
  return asking("Paste", "Ctrl V", clip === null ? null : pasteStretch(score, line, from, clip));
}

function asking(words: string, key: string, asked: Asked | null): HandWord {
  return { words, key, does: { kind: "ask", asked } };
}

/** Whether a word can be pressed. */
export function isOffered({ does }: HandWord): boolean {
  return does.kind !== "ask" || does.asked !== null;
}
