import { barNumber } from "../score/bar-number.ts";
import { frameTicks } from "../score/meter.ts";
import type { Score } from "../score/score.ts";
import { momentInWords } from "./beat-at.ts";
import type { Stretch } from "./timeline.ts";

/** What the user has asked for, as the transport shows it. Session state, not part of the score. */
export interface PlaySettings {
  /** Percent of the written tempo, 40 to 150. */
  readonly tempoPercent: number;
  /** What is played over and over; null: from here to the end, once. */
  readonly loop: Stretch | null;
  /** Whether a bar is counted first. */
  readonly countIn: boolean;
}

/** The tempo as written, to the end, at once. */
export const USUAL_SETTINGS: PlaySettings = { tempoPercent: 100, loop: null, countIn: false };

/** The loop as it stands in the transport: `no loop`, `loop bar 3`, `loop bars 3 to 6`, `loop bar 3, beat 2 to bar 4, beat 1`. */
export function loopInWords(score: Score, loop: Stretch | null): string {
  if (loop === null) return "no loop";
  const bars = wholeBars(score, loop);
  if (bars === null) return `loop ${momentInWords(score, loop.from)} to ${momentInWords(score, loop.to)}`;
  const [first, last] = [barNumber(score, bars.first), barNumber(score, bars.last)];
  return first === last ? `loop bar ${first}` : `loop bars ${first} to ${last}`;
}

/** The bars a stretch covers, where it covers whole ones; indexes into the frames, both included. Null otherwise. */
export function wholeBars({ frames }: Score, { from, to }: Stretch): { readonly first: number; readonly last: number } | null {
  if (from.at !== 0) return null;
  const last = to.at === 0 ? to.bar - 1 : to.bar;
  const frame = frames[last];
  if (frame === undefined || last < from.bar) return null;
  return to.at === 0 || to.at >= frameTicks(frame) ? { first: from.bar, last } : null;
}

/** The stretch from one bar to another, both included. */
export function stretchOfBars({ frames }: Score, first: number, last: number): Stretch {
  const end = frames[last];
  if (end === undefined || first > last) throw new RangeError(`There are no bars ${first} to ${last}.`);
  return { from: { bar: first, at: START }, to: { bar: last, at: frameTicks(end) } };
}

const START = 0 as Stretch["from"]["at"];
