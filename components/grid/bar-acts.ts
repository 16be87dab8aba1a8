import { copyBars } from "../../src/editing/clip.ts";
import { NOTHING } from "../../src/editing/selection.ts";
import { barStarts, scoreTicks } from "../../src/score/bar-starts.ts";
import type { BarRange, Edit, StretchClip } from "../../src/score/edit.ts";
import type { Frame } from "../../src/score/frame.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { frameTicks } from "../../src/score/meter.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { type Asked, addressAt, asked } from "./asked.ts";

/** Puts an empty bar in front of a bar. */
export function insertBar(before: number): Asked {
  return asked([{ kind: "insert-bars", before, count: 1 }], NOTHING);
}

/** Takes bars out, every line's together. */
export function removeBars(range: BarRange): Asked {
  return asked([{ kind: "remove-bars", range }], NOTHING);
}

/** Puts a copy of bars right after them, and chooses the copy. */
export function duplicateBars(score: Score, line: LineId, range: BarRange): Asked {
  const count = range.last - range.first + 1;
  const edit: Edit = { kind: "insert-clip", before: range.last + 1, clip: copyBars(score, range) };
  // A stretch to the end of the last bar: the bar after it may not exist.
  const end = frameTicks(score.frames[range.last] as Frame);
  const chosen = { kind: "stretch", line, from: { bar: range.last + 1, at: ticks(0) }, to: { bar: range.last + count, at: end } } as const;
  return asked([edit], chosen, count === 1 ? "duplicate a bar" : `duplicate ${count} bars`);
}

/** Puts a copied stretch down over what is there; bars are added where it runs past the end. */
export function pasteStretch(score: Score, line: LineId, time: number, clip: StretchClip): Asked | null {
  const length = clip.events.reduce((sum, event) => sum + event.ticks, 0);
  if (length === 0) return null;
  const end = scoreTicks(score.frames);
  const lastBar = score.frames.length - 1;
  const barLength = end - (barStarts(score.frames)[lastBar] ?? 0);
  const missing = Math.max(0, Math.ceil((time + length - end) / barLength));
  const grow: Edit[] = missing > 0 ? [{ kind: "insert-bars", before: score.frames.length, count: missing }] : [];
  const at = time >= end ? { line, bar: score.frames.length, at: ticks(0) } : addressAt(score, line, time);
  const paste: Edit = { kind: "paste", at, clip };
  return asked([...grow, paste], { kind: "note", at }, asked([paste]).label);
}
