import { type Seconds, seconds } from "../units/seconds.ts";
import type { PlainNote } from "./chanter-note.ts";
import { placementOf } from "./embellishments.ts";
import { GRACENOTE_SECONDS } from "./gracenote-seconds.ts";

/** A note is to last so many times its group. *Source:* common practice. */
const TIMES_ITS_GROUP = 2;

/** Tempo and length multiply to numbers a hair under what they stand for; seconds. */
const ROUNDING = 1e-9;

/** How long gracenotes take together where there is room. */
export function groupSeconds(gracenotes: readonly PlainNote[]): Seconds {
  return seconds(gracenotes.length * GRACENOTE_SECONDS);
}

/** How long a note has to last for gracenotes to have time in it, seconds: twice as long as they take. */
export function leastSecondsFor(gracenotes: readonly PlainNote[]): number {
  return groupSeconds(gracenotes) * TIMES_ITS_GROUP - ROUNDING;
}

/** How long the notes are that a group stands between, with all they are tied to. */
export interface GroupRoom {
  /** The note it leads into. */
  readonly note: number;
  /** The note before; null where the chanter is silent. */
  readonly before: number | null;
}

/**
 * Which note is too short for gracenotes: the one they lead into or, for those that come before the beat, the one before that gives its time.
 * Null when both last twice as long as the group.
 */
export function shortNote(gracenotes: readonly PlainNote[], room: GroupRoom): "note" | "before" | null {
  const needed = leastSecondsFor(gracenotes);
  if (room.note < needed) return "note";
  const gives = placementOf(gracenotes) === "before-beat" && room.before !== null;
  return gives && (room.before as number) < needed ? "before" : null;
}
