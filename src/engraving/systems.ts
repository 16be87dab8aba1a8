import type { Frame } from "../score/frame.ts";
import { isShort } from "../score/meter.ts";
import type { Line, Score } from "../score/score.ts";
import { barSigns } from "./bar-signs.ts";
import { barContextOf, eventsOf } from "./part-facts.ts";
import { naturalWidth, pressedWidth, spacingOf } from "./placing.ts";

/** The bars that stand on one line of staff: first and last, both included, and how wide each is by itself. */
export interface System {
  readonly first: number;
  readonly last: number;
  /** Of each bar, when nothing stretches or presses it. */
  readonly natural: readonly number[];
}

/** Tunes for the pipes are read four bars to a line (common practice, trade habit of printed settings). */
const BARS_A_LINE = 4;

/** Other players' lines are filled, but no fuller than this. */
const MOST_BARS = 6;

/** How wide a bar is by itself and when pressed, from our own estimate: nothing is engraved for it. */
interface Widths {
  readonly natural: number;
  readonly pressed: number;
}

/** Parts the bars into lines of staff: a section begins a line, pipes have four bars a line where they fit, others as many as read well. */
export function systemsOf(score: Score, line: Line, room: (first: number) => number): readonly System[] {
  const widths = score.frames.map((_, bar) => widthsOf(score, line, bar));
  const systems: System[] = [];
  for (let first = 0; first < widths.length; ) {
    const most = lastThatFits(score.frames, widths, first, room(first), line.kind === "pipes" ? "four" : "fill");
    systems.push({ first, last: most, natural: widths.slice(first, most + 1).map(({ natural }) => natural) });
    first = most + 1;
  }
  return systems;
}

function lastThatFits(frames: readonly Frame[], widths: readonly Widths[], first: number, room: number, manner: "four" | "fill"): number {
  const pickup = first === 0 && frames[0] !== undefined && isShort(frames[0]) ? 1 : 0;
  const most = (manner === "four" ? BARS_A_LINE : MOST_BARS) + pickup;
  let last = first;
  let used = sizeIn(widths[first], manner);
  while (last + 1 < frames.length && last + 1 - first < most && frames[last + 1]?.section === null) {
    used += sizeIn(widths[last + 1], manner);
    if (used > room) break;
    last += 1;
  }
  return last;
}

/** Four bars are pressed to fit; a line that is only filled stays at ease. */
function sizeIn(widths: Widths | undefined, manner: "four" | "fill"): number {
  if (widths === undefined) return 0;
  return manner === "four" ? widths.pressed : widths.natural;
}

function widthsOf(score: Score, line: Line, bar: number): Widths {
  const context = barContextOf(score, line, bar, { spacing: "page", width: 0, firstInSystem: false, lastInSystem: false });
  const spacing = spacingOf(barSigns(eventsOf(score, line, bar), context), context);
  return { natural: naturalWidth(spacing), pressed: pressedWidth(spacing) };
}
