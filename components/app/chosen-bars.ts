import type { Selection } from "../../src/editing/selection.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";

/** The bars that what is chosen lies in; where nothing is chosen, the bar the hand is at. Always inside the score. */
export function chosenBars(score: Score, selection: Selection, hand: number): BarRange {
  const last = score.frames.length - 1;
  const inside = (bar: number): number => Math.max(0, Math.min(bar, last));
  if (selection.kind === "note") return { first: inside(selection.at.bar), last: inside(selection.at.bar) };
  if (selection.kind === "stretch") {
    // A stretch ends before `to`: one that ends with a bar ends at the start of the next.
    const end = selection.to.at === 0 && selection.to.bar > selection.from.bar ? selection.to.bar - 1 : selection.to.bar;
    return { first: inside(selection.from.bar), last: inside(end) };
  }
  return { first: inside(hand), last: inside(hand) };
}
