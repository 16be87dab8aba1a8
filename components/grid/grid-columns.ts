import type { PipeBar } from "../../src/score/bar.ts";
import { barAtTime, barStarts, scoreTicks } from "../../src/score/bar-starts.ts";
import type { Frame } from "../../src/score/frame.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { PipeLine } from "../../src/score/score.ts";
import { barColumns, type GridStep } from "./grid-step.ts";

/** The columns of a bar of a line, in ticks from the bar's start. */
export function columnsOf(bar: PipeBar, frame: Frame, step: GridStep): readonly number[] {
  return barColumns(placedEvents(bar), frame, step);
}

/** The columns of one line at one step, counted. */
interface Counted {
  readonly bars: readonly PipeBar[];
  readonly frames: readonly Frame[];
  readonly counts: readonly number[];
  /** How many stand before each bar, and all of them. */
  readonly before: readonly number[];
}

/** What was counted last at each step: after an edit only bars that are other objects are counted again. It keeps one sketch alive at most. */
const counted = new Map<GridStep, Counted>();

/** How many columns stand before each bar; one entry more than bars, all of them. The identical list as long as every bar has as many. */
export function columnsBefore(line: PipeLine, frames: readonly Frame[], step: GridStep): readonly number[] {
  const { bars } = line;
  const known = counted.get(step);
  if (known?.bars === bars && known.frames === frames) return known.before;
  const counts = countsOf(bars, frames, step, known);
  const before = counts === known?.counts ? known.before : sums(counts);
  counted.set(step, { bars, frames, counts, before });
  return before;
}

function countsOf(bars: readonly PipeBar[], frames: readonly Frame[], step: GridStep, known: Counted | undefined): readonly number[] {
  if (known?.bars.length !== bars.length) return bars.map((bar, index) => columnsOf(bar, frames[index] as Frame, step).length);
  let counts = known.counts;
  for (let index = 0; index < bars.length; index += 1) {
    const [bar, frame] = [bars[index] as PipeBar, frames[index] as Frame];
    if (bar === known.bars[index] && frame === known.frames[index]) continue;
    const count = columnsOf(bar, frame, step).length;
    if (count !== counts[index]) counts = counts.with(index, count);
  }
  return counts;
}

function sums(counts: readonly number[]): readonly number[] {
  let sum = 0;
  return [0, ...counts.map((count) => (sum += count))];
}

/** The start of the column a time lies in, from the start of the score; the end of the score is a column of its own. */
export function columnAt(line: PipeLine, frames: readonly Frame[], time: number, step: GridStep): number {
  const end = scoreTicks(frames);
  if (time >= end) return end;
  const bar = barAtTime(frames, Math.max(0, time));
  const start = barStarts(frames)[bar] ?? 0;
  const columns = columnsOf(line.bars[bar] as PipeBar, frames[bar] as Frame, step);
  return start + (columns.findLast((at) => start + at <= time) ?? 0);
}

/** Where the column after (before, for -1) the one a time lies in begins; stays at the ends of the score. */
export function columnBeside(line: PipeLine, frames: readonly Frame[], time: number, by: 1 | -1, step: GridStep): number {
  const here = columnAt(line, frames, time, step);
  if (by < 0) return here === 0 ? 0 : columnAt(line, frames, here - 1, step);
  return Math.min(scoreTicks(frames), columnEnd(line, frames, here, step));
}

/** Where the column a time lies in ends. */
export function columnEnd(line: PipeLine, frames: readonly Frame[], time: number, step: GridStep): number {
  const end = scoreTicks(frames);
  if (time >= end) return end;
  const bar = barAtTime(frames, Math.max(0, time));
  const start = barStarts(frames)[bar] ?? 0;
  const columns = columnsOf(line.bars[bar] as PipeBar, frames[bar] as Frame, step);
  const next = columns.find((at) => start + at > time);
  return next === undefined ? (barStarts(frames)[bar + 1] ?? end) : start + next;
}
