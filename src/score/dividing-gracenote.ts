import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import { fingeringTable } from "../pipes/fingering-table.ts";
import { movementsOf } from "../pipes/gracenote-group.ts";
import type { GracenoteMovement } from "../pipes/gracenote-movement.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";

/** The gracenote that divides two like notes, and whether the fingers lift or strike for it. */
export interface DividingGracenote {
  readonly gracenote: PlainNote;
  readonly kind: GracenoteMovement["kind"];
}

/**
 * Gracenotes from the usual to the last resort: the G, the thumb, the other lifts, then strikes. *Source:* that the G comes first is common
 * practice; the order of the rest is ours, and matters only where a fingering was edited.
 */
const BY_USE: readonly PlainNote[] = ["high-g", "high-a", "d", "e", "f", "c", "b", "low-a", "low-g"];

/**
 * The most usual gracenote that divides a note from a like note before it, as the setup fingers them: the G up to F (and over high G sharp,
 * whose first finger is down), the thumb on high G, a struck G on high A. Null when an edited fingering leaves none.
 *
 * @param alsoAfter what else may sound before the note, where playing reaches it by several ways; null after silence
 */
export function dividingGracenote(
  setup: PipeSetup,
  note: ChanterNote,
  alsoAfter: readonly (ChanterNote | null)[] = [],
): DividingGracenote | null {
  const table = fingeringTable(setup);
  for (const gracenote of BY_USE) {
    const movements = movementsOf(table, [gracenote], { before: note, note });
    const [movement] = movements.ok ? movements.value : [];
    const fits = alsoAfter.every((before) => movementsOf(table, [gracenote], { before, note }).ok);
    if (movement !== undefined && fits) return { gracenote, kind: movement.kind };
  }
  return null;
}
