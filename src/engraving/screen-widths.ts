import { barList } from "../score/bar-list.ts";
import { eventsOf } from "../score/doubling.ts";
import type { Frame } from "../score/frame.ts";
import type { LineEvent } from "../score/like-events.ts";
import type { Line, Score } from "../score/score.ts";
import { barSigns } from "./bar-signs.ts";
import { barContextOf } from "./part-facts.ts";
import { placedOnDesk, spacingOf } from "./placing.ts";

/** A bar is never narrower, so that its beats can be hit on the grid. */
const LEAST = 96;

/** Widths go in such steps, so that most edits leave the width, and with it every neighbour, alone. */
const STEP = 24;

/** Beyond this a bar is crowded, not wide. */
const MOST = 4800;

/** How wide a bar of a line has to be, and what that was worked out from. */
interface Known {
  readonly before: readonly LineEvent[] | null;
  readonly frameBefore: Frame | undefined;
  readonly frame: Frame;
  readonly frameAfter: Frame | undefined;
  readonly player: string;
  readonly width: number;
}

const known = new WeakMap<readonly LineEvent[], readonly Known[]>();

/** The same bar copied to several places has several neighbours. */
const KEPT = 8;

/**
 * How wide each bar is on the desk and on the grid, in pixels: what its densest part needs to keep every head within 14 px of its moment,
 * rounded up to a step of 24, at least 96. After an edit only the bars it touched and their neighbours are measured, and where none has another width
 * it is the identical list.
 */
export const screenWidths: (score: Score) => readonly number[] = barList((score, bar) =>
  Math.max(LEAST, ...score.lines.map((line) => widthOf(score, line, bar))),
);

function widthOf(score: Score, line: Line, bar: number): number {
  const events = eventsOf(score, line, bar);
  const before = bar === 0 ? null : eventsOf(score, line, bar - 1);
  const [frameBefore, frame, frameAfter] = [score.frames[bar - 1], score.frames[bar] as Frame, score.frames[bar + 1]];
  const player = line.kind === "pipes" ? "pipes" : line.player;
  const list = known.get(events) ?? [];
  const same = list.find(
    (one) =>
      one.before === before &&
      one.frame === frame &&
      one.frameBefore === frameBefore &&
      one.frameAfter === frameAfter &&
      one.player === player,
  );
  if (same !== undefined) return same.width;
  const width = leastWidth(score, line, bar, events);
  known.set(events, [{ before, frameBefore, frame, frameAfter, player, width }, ...list].slice(0, KEPT));
  return width;
}

function leastWidth(score: Score, line: Line, bar: number, events: readonly LineEvent[]): number {
  const context = barContextOf(score, line, bar, { spacing: "desk", width: LEAST, firstInSystem: bar === 0, lastInSystem: false });
  const spacing = spacingOf(barSigns(events, context), context);
  let width = LEAST;
  while (width < MOST && !placedOnDesk(spacing, width).fits) width += STEP;
  return width;
}
