import type { Line, Score } from "./score.ts";

/**
 * The bars that are other objects in a second score, in the pipes' lines or in their frames, in order; `null` where more differs: the number of
 * bars, a setup, the title, or other players' bars, over which may stand words that depend on a bar far back (`own line`). Told by identity alone,
 * so 1,000 bars cost microseconds and no bar is looked into.
 */
export function touchedBars(before: Score, after: Score): readonly number[] | null {
  if (!isSameBut(before, after, ["frames", "lines", "revision"])) return null;
  if (before.frames.length !== after.frames.length || before.lines.length !== after.lines.length) return null;
  const touched = new Set(differing(before.frames, after.frames));
  for (const [index, line] of after.lines.entries()) {
    const old = before.lines[index] as Line;
    if (old === line) continue;
    if (line.kind !== "pipes" || old.kind !== "pipes" || !isSameBut(old, line, ["bars"]) || old.bars.length !== line.bars.length)
      return null;
    for (const bar of differing(old.bars, line.bars)) touched.add(bar);
  }
  return [...touched].sort((one, other) => one - other);
}

/** Whether two objects hold the same, some properties left out. A property added to scores or lines one day is looked at without being named here. */
function isSameBut<Whole extends object>(one: Whole, other: Whole, but: readonly (keyof Whole)[]): boolean {
  if (one === other) return true;
  const names = new Set([...Object.keys(one), ...Object.keys(other)] as (keyof Whole)[]);
  return [...names].every((name) => but.includes(name) || one[name] === other[name]);
}

function differing<Item>(before: readonly Item[], after: readonly Item[]): readonly number[] {
  if (before === after) return [];
  const places: number[] = [];
  for (let place = 0; place < after.length; place += 1) if (before[place] !== after[place]) places.push(place);
  return places;
}
