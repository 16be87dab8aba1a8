import { barNumber } from "../score/bar-number.ts";
import { barStarts, timeOf } from "../score/bar-starts.ts";
import type { BarRange } from "../score/edit.ts";
import type { Score } from "../score/score.ts";
import { sectionAround } from "../score/section-around.ts";
import { ticks } from "../units/ticks.ts";
import type { Stretch } from "./stretch.ts";

/** How much of a line is meant. */
export interface LineScope {
  /** What is chosen or near; the section around it; the whole line. */
  readonly kind: "near" | "section" | "line";
  /** As it stands in a sentence: `bars 5 to 8`, `the whole line`. */
  readonly words: string;
  /** Null: all of it. */
  readonly stretch: Stretch | null;
}

/** The whole line. */
export const WHOLE_LINE: LineScope = { kind: "line", words: "the whole line", stretch: null };

/**
 * What may be meant, the nearest first: the stretch that is chosen, if any, or the bar the hand is at; the section around it, where there are
 * sections; the whole line.
 */
export function lineScopes(score: Score, chosen: Stretch | null, bar: number): readonly LineScope[] {
  const hand = Math.max(0, Math.min(chosen?.from.bar ?? bar, score.frames.length - 1));
  const section = sectionAround(score.frames, hand);
  const scopes = [chosen === null ? scopeOfBars(score, { first: hand, last: hand }) : scopeOfStretch(score, chosen)];
  if (section.name !== "") scopes.push({ ...scopeOfBars(score, section.range), kind: "section", words: `this section, ${section.name}` });
  return [...scopes, WHOLE_LINE];
}

function scopeOfBars(score: Score, { first, last }: BarRange): LineScope {
  const stretch = { from: { bar: first, at: ticks(0) }, to: { bar: last + 1, at: ticks(0) } };
  const [from, to] = [barNumber(score, first), barNumber(score, last)];
  return { kind: "near", words: first === last ? `bar ${from}` : `bars ${from} to ${to}`, stretch };
}

/** Whole bars by their numbers; anything else as what it is. */
function scopeOfStretch(score: Score, stretch: Stretch): LineScope {
  const starts = barStarts(score.frames);
  const [first, after] = [stretch.from, stretch.to].map((moment) => starts.indexOf(timeOf(score.frames, moment))) as [number, number];
  if (first < 0 || after <= first) return { kind: "near", words: "the chosen notes", stretch };
  return { ...scopeOfBars(score, { first, last: after - 1 }), stretch };
}
