import type { Seconds } from "../units/seconds.ts";

/** A corner of a line that opens and closes a sound; between corners it is straight, before the first and after the last it is level. */
export interface GatePoint {
  readonly at: Seconds;
  /** 0 closed, 1 open. */
  readonly value: number;
}

/** When a sound is heard. */
export interface GateSpan {
  readonly start: Seconds;
  readonly stop: Seconds;
}

/** How long opening takes after a start, and closing after a stop, where there is time. */
export interface GateTimes {
  readonly opens: Seconds;
  readonly closes: Seconds;
}

/** The least time to open or close in without a click, in seconds. By ear. */
const LEAST = 0.004;

/**
 * The line that opens a sound at each start and closes it at each stop. It opens after the start and closes after the stop, faster where spans
 * are short or stand close; where one begins as another ends, it closes just before.
 *
 * @param spans in order, not overlapping
 */
export function gateLine(spans: readonly GateSpan[], { opens, closes }: GateTimes): readonly GatePoint[] {
  return spans.flatMap(({ start, stop }, index) => {
    const next = spans[index + 1]?.start ?? Number.POSITIVE_INFINITY;
    const closed = Math.min(stop + closes, next);
    const closing = Math.max(start + (stop - start) / 2, Math.min(stop, closed - LEAST));
    const opened = Math.min(start + opens, closing);
    return [point(start, 0), point(opened, 1), point(closing, 1), point(closed, 0)];
  });
}

/** How far the gate is open at a time. */
export function gateAt(points: readonly GatePoint[], at: number): number {
  const after = points.findIndex((point) => point.at > at);
  const next = points[after];
  const before = after === -1 ? points.at(-1) : points[after - 1];
  if (before === undefined) return next?.value ?? 0;
  if (next === undefined) return before.value;
  return before.value + ((next.value - before.value) * (at - before.at)) / (next.at - before.at);
}

function point(at: number, value: number): GatePoint {
  return { at: at as Seconds, value };
}
