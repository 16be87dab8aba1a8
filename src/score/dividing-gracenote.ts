import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";

/**
 * The gracenote that divides a note from a like note before it, the simplest way: a G gracenote, which is in reach up to F (and over
 * high G sharp, whose first finger is down); the thumb on high G; on high A only a strike, a G. *Source:* common practice.
 */
export function dividingGracenote(note: ChanterNote): PlainNote {
  return note === "high-g" ? "high-a" : "high-g";
}
