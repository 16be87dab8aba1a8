import type { Edit } from "../score/edit.ts";
import type { LineId } from "../score/line-id.ts";
import type { Score } from "../score/score.ts";
import { assertNever } from "../units/assert-never.ts";
import { type Baring, bareNotes } from "./bare-notes.ts";
import { type Gracing, type GracingDepth, gracingOf } from "./gracing.ts";
import type { TuneType } from "./gracing-rules.ts";
import { type Holding, mergeRepeatedNotes } from "./merge-repeated-notes.ts";
import type { Stretch } from "./stretch.ts";

/** What can be done to many notes of a line at once. */
export type LineAct =
  | { readonly kind: "grace"; readonly tuneType: TuneType; readonly depth: GracingDepth }
  /** Repeated notes are held on through each beat. */
  | { readonly kind: "hold" }
  /** The gracenotes go. */
  | { readonly kind: "bare" };

/** What an act would do: to be looked at before it is done. */
export interface LineActPlan {
  /** To be applied as one step; none: there is nothing to do. */
  readonly edits: readonly Edit[];
  /** What undoing it is called: `grace the line as a march`. */
  readonly label: string;
  /** What it comes to, in a sentence: how much, and what is left as it is; or why there is nothing to do. */
  readonly words: string;
}

/** What doing something to a line, or a stretch of it (null: all of it), would come to. */
export function planOf(score: Score, line: LineId, act: LineAct, stretch: Stretch | null): LineActPlan {
  switch (act.kind) {
    case "grace": {
      const gracing = gracingOf(score, { line, stretch, tuneType: act.tuneType, depth: act.depth });
      const label = act.depth === "dividing" ? "divide like notes" : `grace the line as a ${act.tuneType}`;
      return { edits: gracing.edits, label, words: gracingWords(gracing, act.depth) };
    }
    case "hold": {
      const holding = mergeRepeatedNotes(score, line, stretch);
      return { edits: holding.edits, label: "hold repeated notes", words: holdingWords(holding) };
    }
    case "bare": {
      const baring = bareNotes(score, line, stretch);
      return { edits: baring.edits, label: "remove the gracenotes", words: baringWords(baring) };
    }
    default:
      return assertNever(act);
  }
}

function gracingWords({ edits, notes, left, undivided }: Gracing, depth: GracingDepth): string {
  if (notes === 0) return "There are no notes here.";
  const kept = left === 0 ? "" : `${counted(left, "note")} with gracenotes already ${left === 1 ? "stays as it is" : "stay as they are"}`;
  const short = undivided === 0 ? "" : ` On ${counted(undivided, "like note")} nothing fits in the time there is.`;
  if (edits.length > 0) {
    const gracenotes = edits.reduce((sum, edit) => sum + edit.gracenotes.length, 0);
    return `${counted(gracenotes, "gracenote")} on ${counted(edits.length, "note")}${kept === "" ? "" : `; ${kept}`}.${short}`;
  }
  if (left === notes) return "Every note here has gracenotes already. They stay as they are.";
  const nothing = depth === "dividing" ? "No two like notes meet here undivided" : "Nothing more belongs on these notes";
  return short === "" ? `${nothing}${kept === "" ? "" : `; ${kept}`}.` : short.trim();
}

function holdingWords({ edits, held }: Holding): string {
  if (held === 0) return "No note is repeated within a beat here, or gracenotes divide them.";
  const sung = edits.some(({ kind }) => kind === "syllables");
  const words = sung ? " Their words come together under the first." : "";
  return `${counted(held, "repeated note")} ${held === 1 ? "is" : "are"} held on from the one before.${words}`;
}

function baringWords({ edits, joined }: Baring): string {
  if (edits.length === 0) return "No note here has gracenotes.";
  const sound = joined === 0 ? "" : `; ${counted(joined, "like note")} ${joined === 1 ? "sounds" : "sound"} as one with the note before`;
  return `${counted(edits.length, "note")} ${edits.length === 1 ? "loses its" : "lose their"} gracenotes${sound}.`;
}

/** `1 note`, `24 notes`. */
function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}
