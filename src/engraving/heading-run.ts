import type { BarRange } from "../score/edit.ts";
import type { Frame } from "../score/frame.ts";
import type { Line, Score } from "../score/score.ts";
import { headingWidth } from "./bar-heading.ts";
import { beginsLine, isPickup } from "./part-breaks.ts";
import { type BarPlace, barContextOf } from "./part-facts.ts";

/*
 * A pickup is short, and the heading of its part long:
 *
 *     A  First part  ♩. = 50
 *     ─────────────────────────
 *       ♪ |  ♩.     ♩    ♪    |      so the heading runs on over the bar after it
 */

/** Whether the heading over a bar may run on over the bar after it: over a pickup that begins a line, where nothing else is headed for two bars. */
export function mayRunOn({ frames }: Score, { first, last }: BarRange): boolean {
  const [pickup, next, third] = [frames[first], frames[first + 1], frames[first + 2]];
  if (first !== last || pickup === undefined || next === undefined || !isPickup(frames, first) || !beginsLine(frames, first)) return false;
  const sameTempo = ({ tempo, tune }: Frame) =>
    tune === null && tempo.beat === pickup.tempo.beat && tempo.perMinute === pickup.tempo.perMinute;
  const isBare = (frame: Frame) => frame.ending === null && sameTempo(frame);
  // The section of the bar after a pickup is printed over the pickup, unless that has one of its own.
  const isHeadedOnce = (pickup.section === null || next.section === null) && (third === undefined || third.section === null);
  return pickup.ending === null && isHeadedOnce && !isPickup(frames, first + 1) && isBare(next) && (third === undefined || isBare(third));
}

/** How far the heading over a bar reaches from its beginning; 0 where it may not run on. */
export function headingReach(score: Score, line: Line, bars: BarRange, place: BarPlace): number {
  return mayRunOn(score, bars) ? headingWidth(barContextOf(score, line, bars.first, place)) : 0;
}
