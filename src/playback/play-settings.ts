import { GRACENOTE_SECONDS } from "../pipes/gracenote-seconds.ts";
import { barNumber } from "../score/bar-number.ts";
import { frameTicks } from "../score/meter.ts";
import type { Score } from "../score/score.ts";
import { seconds } from "../units/seconds.ts";
import { momentInWords } from "./beat-at.ts";
import { UNISON_BEAT } from "./drone-sounds.ts";
import { USUAL_GRACENOTES } from "./gracenote-time.ts";
import type { ScheduleOptions } from "./schedule.ts";
import type { Stretch } from "./timeline.ts";

/** What the user has asked for, as the transport shows it. Session state, not part of the score. */
export interface PlaySettings {
  /** Percent of the written tempo, 40 to 150. */
  readonly tempoPercent: number;
  /** What is played over and over; null: from here to the end, once. */
  readonly loop: Stretch | null;
  /** Whether a bar is counted first. */
  readonly countIn: boolean;
  /** How long one gracenote lasts where there is room, milliseconds: `GRACENOTE_REACH`. */
  readonly gracenoteMs: number;
  /** How long the drones sound before the first strike-in. */
  readonly droneLead: "bar" | "beat";
  /** How far apart two drones of one pitch stand, hertz: `UNISON_BEAT_REACH`. */
  readonly unisonBeat: number;
}

/** What may be chosen for the length of a gracenote, milliseconds. From memory: 40 is usual, and nothing measured is published that we know. */
export const GRACENOTE_REACH = { least: 20, most: 80 } as const;

/** What may be chosen for two tenors: from one to a beat a second, hertz. */
export const UNISON_BEAT_REACH = { least: 0, most: 1 } as const;

/** The tempo as written, to the end, at once. */
export const USUAL_SETTINGS: PlaySettings = {
  tempoPercent: 100,
  loop: null,
  countIn: false,
  gracenoteMs: GRACENOTE_SECONDS * 1000,
  droneLead: "bar",
  unisonBeat: UNISON_BEAT,
};

/** What a schedule is asked for with these settings. */
export function scheduleOptions({ tempoPercent, countIn, loop, gracenoteMs, droneLead, unisonBeat }: PlaySettings): ScheduleOptions {
  const gracenotes = { ...USUAL_GRACENOTES, each: seconds(gracenoteMs / 1000) };
  return { tempoPercent, countIn, stretch: loop, gracenotes, droneLead, unisonBeat };
}

/** Whether two settings give the same music, whatever is counted before it. */
export function soundAlike(one: PlaySettings, other: PlaySettings): boolean {
  return (
    one.tempoPercent === other.tempoPercent &&
    one.loop === other.loop &&
    one.gracenoteMs === other.gracenoteMs &&
    one.droneLead === other.droneLead &&
    one.unisonBeat === other.unisonBeat
  );
}

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
