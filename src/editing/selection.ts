import type { Address, Moment } from "../score/address.ts";
import type { LineId } from "../score/line-id.ts";

/** What is chosen. It belongs to the session and is kept beside each undo step, never in the score. */
export type Selection =
  | { readonly kind: "nothing" }
  /** One note, with all it is tied to. */
  | { readonly kind: "note"; readonly at: Address }
  /** Time on one line, from one moment up to (not including) another. */
  | { readonly kind: "stretch"; readonly line: LineId; readonly from: Moment; readonly to: Moment };

/** Nothing is chosen. */
export const NOTHING: Selection = { kind: "nothing" };
