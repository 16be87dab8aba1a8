import type { Moment } from "../score/address.ts";
import type { Frame } from "../score/frame.ts";
import { frameTicks } from "../score/meter.ts";
import { playedOrder } from "../score/played-order.ts";
import type { Seconds } from "../units/seconds.ts";
import type { Ticks } from "../units/ticks.ts";

/** A bar, or the part of one, as it is played once. Bars that are repeated have several. */
export interface PlayedBar {
  /** Index into the frames. */
  readonly bar: number;
  /** The part of the bar that is played; all of it except at the edges of a stretch. */
  readonly from: Ticks;
  readonly to: Ticks;
  /** When `from` is played. */
  readonly start: Seconds;
  /** How long a tick lasts here. */
  readonly secondsPerTick: number;
}

/** When every bar is played, in order, without gaps. */
export interface Timeline {
  readonly bars: readonly PlayedBar[];
  /** When the first bar begins: after the count-in and the drones' lead. */
  readonly start: Seconds;
  /** When the last bar ends. */
  readonly end: Seconds;
}

/** Time of the score as it is written, from one moment up to (not including) another. */
export interface Stretch {
  readonly from: Moment;
  readonly to: Moment;
}

/** A bar that is to be played, and how much of it. */
export type BarToPlay = Pick<PlayedBar, "bar" | "from" | "to">;

/** Slowest and fastest, in percent of the tempo that is written. */
export const LEAST_TEMPO_PERCENT = 40;
export const MOST_TEMPO_PERCENT = 150;

/** The bars as they are played from a moment to the end, repeats and endings taken. The moment's first playing is meant. */
export function barsFrom(frames: readonly Frame[], from: Moment): readonly BarToPlay[] {
  const order = playedOrder(frames);
  const first = Math.max(0, order.indexOf(from.bar));
  return order.slice(first).flatMap((bar, index) => whole(frames, bar, index === 0 && bar === from.bar ? from.at : 0));
}

/** The bars of a stretch as written, repeats not taken, over and over. Empty when the stretch is. */
export function barsOfStretch(frames: readonly Frame[], { from, to }: Stretch, passes: number): readonly BarToPlay[] {
  const once: BarToPlay[] = [];
  for (let bar = from.bar; bar <= Math.min(to.bar, frames.length - 1); bar += 1) {
    once.push(...whole(frames, bar, bar === from.bar ? from.at : 0, bar === to.bar ? to.at : undefined));
  }
  return Array.from({ length: passes }, () => once).flat();
}

/**
 * Gives every bar its time.
 *
 * @param tempoPercent of the tempo that is written
 * @param start when the first bar begins
 */
export function timelineOf(frames: readonly Frame[], bars: readonly BarToPlay[], tempoPercent: number, start: Seconds): Timeline {
  let time: number = start;
  const played = bars.map((part) => {
    const secondsPerTick = secondsPerTickOf(frames[part.bar] as Frame, tempoPercent);
    const timed: PlayedBar = { ...part, start: time as Seconds, secondsPerTick };
    time += (part.to - part.from) * secondsPerTick;
    return timed;
  });
  return { bars: played, start, end: time as Seconds };
}

/** How long a tick lasts at the frame's tempo, so many percent of it. */
export function secondsPerTickOf({ tempo }: Frame, tempoPercent: number): number {
  return (60 / (tempo.perMinute * tempo.beat)) * (100 / tempoPercent);
}

/** A place in what is played: which playing of the bar (0 is the first) and where in it. */
export interface PlayedPlace extends Moment {
  readonly pass: number;
}

/** The written moment that is played at a time, or null before the first bar and from the end on. */
export function momentAtSecond(timeline: Timeline, second: number): Moment | null {
  const index = playedBarAt(timeline, second);
  return index === null ? null : momentIn(timeline.bars[index] as PlayedBar, second);
}

/** The same with the number of times the bar had been played before: the place to go on from when the tempo or the notes change. */
export function placeAtSecond(timeline: Timeline, second: number): PlayedPlace | null {
  const index = playedBarAt(timeline, second);
  if (index === null) return null;
  const moment = momentIn(timeline.bars[index] as PlayedBar, second);
  let pass = 0;
  for (let before = 0; before < index; before += 1) if (timeline.bars[before]?.bar === moment.bar) pass += 1;
  return { ...moment, pass };
}

/**
 * When a written moment is played: in the given playing of its bar (the first one that reaches the moment at all, unless told otherwise).
 * Null when it is not played that often.
 */
export function secondAtMoment(timeline: Timeline, moment: Moment, pass = 0): Seconds | null {
  let met = 0;
  for (const played of timeline.bars) {
    if (played.bar !== moment.bar) continue;
    if (met >= pass && played.from <= moment.at && moment.at < played.to) return secondIn(played, moment.at);
    met += 1;
  }
  return null;
}

/** The index of the bar that is played at a time, found by halving; null outside. */
export function playedBarAt({ bars, start, end }: Timeline, second: number): number | null {
  if (second < start || second >= end) return null;
  let low = 0;
  let high = bars.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((bars[middle] as PlayedBar).start <= second) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** When a moment of a bar is played, given that playing of the bar. */
export function secondIn({ start, from, secondsPerTick }: PlayedBar, at: number): Seconds {
  return (start + (at - from) * secondsPerTick) as Seconds;
}

/** Ticks are whole numbers; a time that is within a billionth of the next one is that one. */
function momentIn({ bar, from, to, start, secondsPerTick }: PlayedBar, second: number): Moment {
  const at = from + Math.floor((second - start) / secondsPerTick + 1e-6);
  return { bar, at: Math.min(at, to - 1) as Ticks };
}

function whole(frames: readonly Frame[], bar: number, from: number, to?: number): readonly BarToPlay[] {
  const frame = frames[bar];
  if (frame === undefined) return [];
  const length = frameTicks(frame);
  const end = Math.min(to ?? length, length);
  return from < end ? [{ bar, from: from as Ticks, to: end as Ticks }] : [];
}
