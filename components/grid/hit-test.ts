import type { Selection } from "../../src/editing/selection.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";
import { placeOfTime, timeAtPlace } from "./bar-places.ts";
import { chosenNote, type HeldNote, heldNoteAt } from "./chosen-notes.ts";
import type { Hand } from "./gesture.ts";
import type { GridMeasures } from "./grid-measures.ts";
import { type GridRow, rowAt } from "./grid-rows.ts";

/** What lies under the hand. */
export type Hit =
  /** The ring at an end of the chosen note. */
  | { readonly kind: "start" | "end"; readonly held: HeldNote }
  | { readonly kind: "note"; readonly held: HeldNote }
  /** A row where nothing stands. */
  | { readonly kind: "row" };

/** All that a hit depends on. */
export interface HitField {
  readonly score: Score;
  readonly line: LineId;
  readonly widths: readonly number[];
  readonly selection: Selection;
  readonly rows: readonly GridRow[];
  readonly measures: GridMeasures;
  /** Px from the grid's top at which a note sounds, whether or not it has a row. */
  readonly height: (note: ChanterNote) => number;
}

/** Time and row at a place: px from the start of the score and from the grid's top. */
export function handAt(field: HitField, x: number, y: number): Hand {
  return { time: timeAtPlace(field.score.frames, field.widths, x), note: rowAt(field.rows, y).note };
}

/** What a press at a place would take hold of. Handles go before notes; between two rows the nearer one wins. */
export function hitAt(field: HitField, x: number, y: number): Hit {
  const { score, line, measures } = field;
  const chosen = chosenNote(score, line, field.selection);
  if (chosen !== null) {
    const edge = edgeAt(field, chosen, x, y);
    if (edge !== null) return { kind: edge, held: chosen };
  }
  const held = heldNoteAt(score, line, Math.floor(timeAtPlace(score.frames, field.widths, x)));
  if (held === null) return { kind: "row" };
  const away = Math.abs(field.height(held.note) - y);
  const hasRow = field.rows.some(({ note }) => note === held.note);
  const isNearest = rowAt(field.rows, y).note === held.note;
  return away <= measures.reach && (isNearest || !hasRow) ? { kind: "note", held } : { kind: "row" };
}

/** Handles reach outwards in full, inwards by no more than a third of the note, so that a short one can still be moved. */
function edgeAt(field: HitField, held: HeldNote, x: number, y: number): "start" | "end" | null {
  const { reach } = field.measures;
  if (Math.abs(field.height(held.note) - y) > reach) return null;
  const from = placeOfTime(field.score.frames, field.widths, held.from);
  const to = placeOfTime(field.score.frames, field.widths, held.to);
  const inwards = Math.min(reach, (to - from) / 3);
  if (x >= to - inwards && x <= to + reach) return "end";
  if (x >= from - reach && x <= from + inwards) return "start";
  return null;
}
