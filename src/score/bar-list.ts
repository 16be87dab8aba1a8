import type { Score } from "./score.ts";
import { touchedBars } from "./touched-bars.ts";

/**
 * Makes a list with an entry for each bar of a score, and keeps it: asked for a score that an edit led to, only the entries of the bars it touched and
 * of the bars beside them are made again; where none comes out another, the list is the identical one.
 *
 * @param entryOf may look at the bar, at the bars right before and after it, in every line, and at what all bars share.
 */
export function barList<Entry>(entryOf: (score: Score, bar: number) => Entry): (score: Score) => readonly Entry[] {
  const lists = new WeakMap<Score, readonly Entry[]>();
  // Most scores that are asked for are one edit away from the one before. It keeps that one alive, and no other.
  let last: { readonly score: Score; readonly list: readonly Entry[] } | null = null;
  return (score) => {
    const list = lists.get(score) ?? (last === null ? allOf(score, entryOf) : goneOn(last.list, last.score, score, entryOf));
    lists.set(score, list);
    last = { score, list };
    return list;
  };
}

function allOf<Entry>(score: Score, entryOf: (score: Score, bar: number) => Entry): Entry[] {
  return score.frames.map((_, bar) => entryOf(score, bar));
}

/** The list of a score before carried over to another. */
function goneOn<Entry>(
  list: readonly Entry[],
  before: Score,
  score: Score,
  entryOf: (score: Score, bar: number) => Entry,
): readonly Entry[] {
  const touched = touchedBars(before, score);
  const made = touched === null ? allOf(score, entryOf) : [...list];
  for (const bar of new Set(touched?.flatMap((one) => [one - 1, one, one + 1]))) {
    if (bar >= 0 && bar < made.length) made[bar] = entryOf(score, bar);
  }
  return made.length === list.length && made.every((entry, bar) => entry === list[bar]) ? list : made;
}
