import type { Frame } from "../score/frame.ts";
import type { LineEvent } from "../score/like-events.ts";
import { isShort } from "../score/meter.ts";
import type { Line, Score } from "../score/score.ts";
import { barSigns } from "./bar-signs.ts";
import { hundredths } from "./boxes.ts";
import { barContextOf, eventsOf } from "./part-facts.ts";
import { type PartStyle, PLAIN_STYLE } from "./part-style.ts";
import { naturalWidth, pressedWidth, spacingOf } from "./placing.ts";

/** The bars that stand on one line of staff: first and last, both included, and how wide each is by itself. */
export interface System {
  readonly first: number;
  readonly last: number;
  /** Of each bar, when nothing stretches or presses it. */
  readonly natural: readonly number[];
}

/** How full lines are made. */
export interface Filling {
  /** No more bars than this. */
  readonly most: number;
  /** Pressed: so many bars as can be pressed into the line. Easy: so many as stand in it at ease. */
  readonly manner: "pressed" | "easy";
}

/** Tunes for the pipes are read four bars to a line (common practice); other players' lines are filled, but no fuller than six. */
export function pageFilling(line: Line): Filling {
  return line.kind === "pipes" ? { most: 4, manner: "pressed" } : { most: 6, manner: "easy" };
}

/** On a phone two bars stand side by side where they can. */
export const PHONE_FILLING: Filling = { most: 2, manner: "pressed" };

/** Parts the bars into lines of staff; a section begins a new line, a pickup is not counted. `room` is what a line that begins at a bar leaves for bars. */
export function systemsOf(
  score: Score,
  line: Line,
  room: (first: number) => number,
  filling: Filling,
  style = PLAIN_STYLE,
): readonly System[] {
  const widths = score.frames.map((_, bar) => widthsOf(score, line, bar, style));
  const systems: System[] = [];
  for (let first = 0; first < widths.length; ) {
    const last = lastThatFits(score.frames, widths, first, room(first), filling);
    systems.push({ first, last, natural: widths.slice(first, last + 1).map(({ natural }) => natural) });
    first = last + 1;
  }
  return systems;
}

/** Whether a line of staff may stay shorter than the paper: it is the last, or a section's last. */
export function mayBeRagged(score: Score, { last }: System): boolean {
  return last === score.frames.length - 1 || score.frames[last + 1]?.section !== null;
}

/** A line with less in it than this share is opened up a little rather than pulled apart. */
const RAGGED = 0.62;
const RAGGED_STRETCH = 1.25;

/** Each bar's share of its line, by its natural width. */
export function barWidths({ natural }: System, room: number, ragged: boolean): readonly number[] {
  const sum = natural.reduce((total, width) => total + width, 0);
  const stretch = ragged && sum < room * RAGGED ? Math.min(RAGGED_STRETCH, room / sum) : room / sum;
  return natural.map((width) => hundredths(width * stretch));
}

/** How wide a bar is by itself and when pressed, from our own estimate: nothing is engraved for it. */
interface Widths {
  readonly natural: number;
  readonly pressed: number;
}

function lastThatFits(frames: readonly Frame[], widths: readonly Widths[], first: number, room: number, { most, manner }: Filling): number {
  const sizeOf = (bar: number) => (manner === "pressed" ? widths[bar]?.pressed : widths[bar]?.natural) ?? 0;
  // A pickup stands before bar 1 on its line, even where bar 1 begins a section.
  const pickup = first === 0 && frames[0] !== undefined && isShort(frames[0]) ? 1 : 0;
  let last = first;
  let used = sizeOf(first);
  while (last + 1 < frames.length && last + 1 - first < most + pickup && (frames[last + 1]?.section === null || last + 1 === pickup)) {
    used += sizeOf(last + 1);
    if (used > room) break;
    last += 1;
  }
  return last;
}

const known = new WeakMap<readonly LineEvent[], Map<string, Widths>>();

function widthsOf(score: Score, line: Line, bar: number, style: PartStyle): Widths {
  const events = eventsOf(score, line, bar);
  const context = barContextOf(score, line, bar, { spacing: "page", width: 0, firstInSystem: false, lastInSystem: false, style });
  const key = JSON.stringify(context);
  const kept = known.get(events) ?? new Map<string, Widths>();
  known.set(events, kept);
  let widths = kept.get(key);
  if (widths === undefined) {
    const spacing = spacingOf(barSigns(events, context), context);
    widths = { natural: naturalWidth(spacing), pressed: pressedWidth(spacing) };
    if (kept.size >= 8) kept.clear();
    kept.set(key, widths);
  }
  return widths;
}
