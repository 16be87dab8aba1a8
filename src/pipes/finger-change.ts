import { NINE_NOTES, type PlainNote } from "./chanter-note.ts";
import type { FingeringTable } from "./fingering-table.ts";
import type { Hole } from "./fingerings.ts";

/** One of the nine that sounds for a moment when fingers do not move as one. */
export interface PassingNote {
  readonly note: PlainNote;
  /** The fingers that have moved by then, the others being late; numbered as the holes, rising. */
  readonly moved: readonly number[];
}

/** What the fingers do from one sound to the next. */
export interface FingerChange {
  /** The fingers that come off, numbered as the holes: 0 thumb to 7 lower little; rising. A finger that goes to half a hole counts as coming off it. */
  readonly lifts: readonly number[];
  /** The fingers that go down, likewise. */
  readonly closes: readonly number[];
  /** Which of the nine can sound in between, lowest first; other sounds that are no note of the nine are left out. */
  readonly passing: readonly PassingNote[];
}

/** How open a hole is. */
const OPENNESS: Readonly<Record<Hole, number>> = { closed: 0, half: 1, open: 2 };

/**
 * The change from one fingering to another, whatever they belong to: notes, cross-fingered notes, gracenotes. Every order in which the
 * fingers may move is considered: at any moment some of the moving fingers have moved and the others not yet, and each such set is had by
 * some order. So a note can sound in between exactly when each of its holes is as it was or as it will be, and not all are the one or the other.
 * *Source:* derived from the fingerings.
 */
export function fingerChange(from: readonly Hole[], to: readonly Hole[], table: FingeringTable): FingerChange {
  const moving = from.flatMap((hole, finger) => (hole === to[finger] ? [] : [finger]));
  const opens = (finger: number) => OPENNESS[to[finger] as Hole] > OPENNESS[from[finger] as Hole];
  return {
    lifts: moving.filter(opens),
    closes: moving.filter((finger) => !opens(finger)),
    passing: NINE_NOTES.flatMap((note) => {
      const holes = table[note];
      const moved = moving.filter((finger) => holes[finger] === to[finger]);
      const onTheWay = holes.every((hole, finger) => hole === from[finger] || hole === to[finger]);
      return onTheWay && moved.length > 0 && moved.length < moving.length ? [{ note, moved }] : [];
    }),
  };
}

/**
 * How hard a change is: one for each finger that moves, one more for each that moves against the others (those of the lesser side, lifting
 * or closing), one more for each of the nine that can sound in between. Low A to E is 1, D to E is 11. A measure of our own, to compare
 * changes by; nothing of the kind is published that we know.
 */
export function hardness(change: FingerChange): number {
  const { lifts, closes, passing } = change;
  return lifts.length + closes.length + Math.min(lifts.length, closes.length) + passing.length;
}
