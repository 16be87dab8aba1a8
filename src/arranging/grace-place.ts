import type { ChanterNote } from "../pipes/chanter-note.ts";
import type { Address } from "../score/address.ts";
import type { PipeNote } from "../score/bar.ts";
import type { Frame } from "../score/frame.ts";

/** A note with all it is tied to. */
export interface SoundingNote {
  /** Where it begins. */
  readonly address: Address;
  readonly note: PipeNote;
  /** How long it lasts with all it is tied to, seconds. */
  readonly seconds: number;
}

/** A note that gracenotes may lead into, with what decides which can. */
export interface GracePlace extends SoundingNote {
  /** What may sound right before it, once for each way that playing reaches it: repeats lead back. Null after silence. */
  readonly before: readonly (SoundingNote | null)[];
}

/** The notes that may sound right before a place; null after silence, and where playing never comes by. */
export function notesBefore({ before }: Pick<GracePlace, "before">): readonly (ChanterNote | null)[] {
  return before.length === 0 ? [null] : [...new Set(before.map((one) => one?.note.note ?? null))];
}

/** How long a time of a bar lasts at its tempo, seconds. */
export function secondsIn({ tempo }: Frame, ticks: number): number {
  return (ticks / tempo.beat) * (60 / tempo.perMinute);
}
