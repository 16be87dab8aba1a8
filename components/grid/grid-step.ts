import type { Tuplet } from "../../src/score/bar.ts";
import { barAtTime, barStarts } from "../../src/score/bar-starts.ts";
import type { Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";

/** How finely time is divided under the hand. */
export type GridStep = "quarter" | "eighth" | "sixteenth" | "thirty-second" | "triplet";

/** A step with its length and how it is called. */
export interface StepEntry {
  readonly step: GridStep;
  readonly ticks: number;
  readonly tuplet: Tuplet;
  /** As it follows "Drawing in". */
  readonly words: string;
  /** The key that picks it. */
  readonly key: string;
}

/** Every step, longest first, triplets last. */
export const GRID_STEPS: readonly StepEntry[] = [
  { step: "quarter", ticks: 960, tuplet: null, words: "quarters", key: "1" },
  { step: "eighth", ticks: 480, tuplet: null, words: "eighths", key: "2" },
  { step: "sixteenth", ticks: 240, tuplet: null, words: "16ths", key: "3" },
  { step: "thirty-second", ticks: 120, tuplet: null, words: "32nds", key: "4" },
  { step: "triplet", ticks: 320, tuplet: 3, words: "triplets", key: "5" },
];

/** What the tables say of a step. */
export function stepEntry(step: GridStep): StepEntry {
  const entry = GRID_STEPS.find((one) => one.step === step);
  if (entry === undefined) throw new RangeError(`There is no step ${step}.`);
  return entry;
}

/** The start of the step that a time lies in, both from the start of the score; steps are counted from each bar line. */
export function stepStart(frames: readonly Frame[], time: number, step: GridStep): number {
  const bar = barAtTime(frames, Math.max(0, time));
  const start = barStarts(frames)[bar] ?? 0;
  const { ticks } = stepEntry(step);
  return start + Math.floor((Math.max(0, time) - start) / ticks) * ticks;
}

/** The end of the step that a time lies in: the next step, or the bar line where that comes first. */
export function stepEnd(frames: readonly Frame[], time: number, step: GridStep): number {
  const bar = barAtTime(frames, Math.max(0, time));
  const end = barStarts(frames)[bar + 1] ?? 0;
  return Math.min(end, stepStart(frames, time, step) + stepEntry(step).ticks);
}

/** The step's edge nearest to a time. */
export function nearestStep(frames: readonly Frame[], time: number, step: GridStep): number {
  const end = barStarts(frames)[frames.length] ?? 0;
  if (time >= end) return end;
  const before = stepStart(frames, time, step);
  const after = stepEnd(frames, time, step);
  return time - before < after - time ? before : after;
}

/** The tuplet a stretch needs: none where straight values fill it. */
export function tupletOf(length: number, step: GridStep): Tuplet {
  const { tuplet } = stepEntry(step);
  return tuplet !== null && length % 960 === 0 ? null : tuplet;
}

const columns = new WeakMap<readonly object[], Map<string, readonly number[]>>();

/**
 * The columns of a bar, in ticks from its start: every step, and every event that begins between steps.
 *
 * @param events the bar's events, with the place each begins
 */
export function barColumns(events: readonly { readonly at: number }[], frame: Frame, step: GridStep): readonly number[] {
  const length = frameTicks(frame);
  const key = `${step} ${length}`;
  const known = columns.get(events)?.get(key);
  if (known !== undefined) return known;
  const { ticks } = stepEntry(step);
  const starts = new Set<number>(events.map(({ at }) => at).filter((at) => at < length));
  for (let at = 0; at < length; at += ticks) starts.add(at);
  const list = [...starts].sort((one, other) => one - other);
  const ofBar = columns.get(events) ?? new Map<string, readonly number[]>();
  columns.set(events, ofBar.set(key, list));
  return list;
}
