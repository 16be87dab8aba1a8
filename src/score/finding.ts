import type { PlainNote } from "../pipes/chanter-note.ts";
import type { Address } from "./address.ts";
import type { Edit } from "./edit.ts";

/** What a finding is about. */
export type FindingKind =
  /** A bar's events do not fill its frame. */
  | "bar-length"
  /** A length that no note value shows. */
  | "note-value"
  /** A tie that does not lead to the same note. */
  | "tie"
  /** The chanter cannot rest here. */
  | "rest"
  /** A note that does not speak in this setup. */
  | "cross-fingering"
  /** Repeats or endings that do not close. */
  | "repeat"
  /** Two like notes that nothing divides. */
  | "like-notes"
  /** A finger change on which other notes can sound. Common and small: most tunes have many. */
  | "crossing"
  /** Gracenotes that take longer than their note, or the note that gives them its time, allows. */
  | "too-fast"
  /** A part goes outside what its player can reach. */
  | "range"
  /** The pipes and the band are further apart than the ear forgives. */
  | "pitch";

/** Something to look at. Never an error: the sketch stays as it is until the piper takes the cure. */
export interface Finding {
  readonly kind: FindingKind;
  readonly address: Address;
  /** One sentence or two: the fact, then the cure. It does not name the bar; `address` does. */
  readonly message: string;
  /** Of a crossing: the notes that can sound, in the order of the message. Left out for every other kind. */
  readonly notes?: readonly PlainNote[];
  /** The cures on offer, most usual first; may be empty. */
  readonly cures: readonly { readonly label: string; readonly edits: readonly Edit[] }[];
}
