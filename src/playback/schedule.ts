import type { Moment } from "../score/address.ts";
import type { Frame } from "../score/frame.ts";
import type { LineId } from "../score/line-id.ts";
import { concertLines, pipeLines } from "../score/line-of.ts";
import { beatsOf, meterTicks } from "../score/meter.ts";
import type { Score } from "../score/score.ts";
import { type Seconds, seconds } from "../units/seconds.ts";
import { type ChanterSpan, chanterSpans, firstStrike } from "./chanter-spans.ts";
import { type Click, clicksOf, countInClicks } from "./clicks.ts";
import { type PlayerSounds, playerSounds } from "./concert-sounds.ts";
import { type DroneSound, droneSounds, UNISON_BEAT } from "./drone-sounds.ts";
import { type GracenoteTiming, USUAL_GRACENOTES } from "./gracenote-time.ts";
import {
  barsFrom,
  barsOfStretch,
  LEAST_TEMPO_PERCENT,
  MOST_TEMPO_PERCENT,
  type Stretch,
  secondsPerTickOf,
  type Timeline,
  timelineOf,
} from "./timeline.ts";

/** How a score is to be played; what is left out is as in brackets. */
export interface ScheduleOptions {
  /** Percent of the tempo that is written, 40 to 150 (100). */
  readonly tempoPercent?: number;
  /** Where to begin (the start). Not looked at where a stretch is played. */
  readonly from?: Moment;
  /** Only this stretch, as it is written (everything, repeats taken). */
  readonly stretch?: Stretch | null;
  /** How often the stretch is played, without a break in between (1). More passes have fewer as their beginning. */
  readonly passes?: number;
  /** Whether a bar is counted before the music (no). */
  readonly countIn?: boolean;
  /** (40 ms each, on the beat or before it as the table of embellishments says) */
  readonly gracenotes?: GracenoteTiming;
  /**
   * How long the drones sound before a line's first strike-in: a bar, or a beat (a bar; a beat where playing begins after the start).
   * From common practice: drones are struck in first, and a band's leader gives a bar.
   */
  readonly droneLead?: "bar" | "beat";
  /** How far apart in hertz drones of one pitch stand (0.15). */
  readonly unisonBeat?: number;
}

/** What the chanter of one pipe line sounds. */
export interface ChanterSounds {
  readonly line: LineId;
  /** In order, not touching. */
  readonly spans: readonly ChanterSpan[];
}

/** A score as sound: what sounds when, in seconds from pressing play, and how high, in hertz. Nothing here is rounded to samples. */
export interface Schedule {
  /** Which bar is played when; begins after count-in and drones' lead. */
  readonly timeline: Timeline;
  /** One for each pipe line, in score order. */
  readonly chanters: readonly ChanterSounds[];
  /** In score order, then as the setup lists them. */
  readonly drones: readonly DroneSound[];
  /** One for each concert line, in score order. */
  readonly players: readonly PlayerSounds[];
  /** In order of time. */
  readonly clicks: readonly Click[];
  /** When all is over. */
  readonly end: Seconds;
}

/**
 * Plays a score on paper. The same score and options give the same schedule; time grows with the number of bars played.
 *
 * ```
 *   0      drones            start of the timeline                         end
 *   |--------|=====================================================|
 *   |  1  2  3  4 | strike-in ____----__---_____---- cut-off |
 *      count-in
 * ```
 * @throws RangeError when the tempo lies outside 40 to 150 percent.
 */
export function scheduleOf(score: Score, options: ScheduleOptions = {}): Schedule {
  const tempoPercent = options.tempoPercent ?? 100;
  if (!(tempoPercent >= LEAST_TEMPO_PERCENT && tempoPercent <= MOST_TEMPO_PERCENT)) {
    throw new RangeError(`The tempo is ${LEAST_TEMPO_PERCENT} to ${MOST_TEMPO_PERCENT} percent of what is written, not ${tempoPercent}.`);
  }
  const { frames } = score;
  const from = options.from ?? (START as Moment);
  const bars = options.stretch ? barsOfStretch(frames, options.stretch, options.passes ?? 1) : barsFrom(frames, from);
  const gracenotes = options.gracenotes ?? USUAL_GRACENOTES;
  // Laid out from zero first: how much goes before depends on what comes when.
  const music = timelineOf(frames, bars, tempoPercent, seconds(0));
  const counted = options.countIn === true ? countInClicks(music, frames, tempoPercent) : [];
  const lead = droneLead(music, frames, tempoPercent, options);
  const firsts = pipeLines(score).flatMap((line) => firstStrike(music, line) ?? []);
  const start = seconds(Math.max(0, -(counted[0]?.at ?? 0), ...firsts.map((first) => lead - first)));
  const timeline = timelineOf(frames, bars, tempoPercent, start);

  const chanters = pipeLines(score).map((line) => ({ line: line.id, spans: chanterSpans(timeline, line, gracenotes) }));
  return {
    timeline,
    chanters,
    drones: pipeLines(score).flatMap((line, index) =>
      droneSounds(line, chanters[index]?.spans ?? [], lead, options.unisonBeat ?? UNISON_BEAT),
    ),
    players: concertLines(score).map((line) => playerSounds(timeline, score, line)),
    clicks: [...counted.map((click) => ({ ...click, at: (start + click.at) as Seconds })), ...clicksOf(timeline, frames)],
    end: timeline.end,
  };
}

const START = { bar: 0, at: 0 };

function droneLead({ bars }: Timeline, frames: readonly Frame[], tempoPercent: number, { droneLead: asked }: ScheduleOptions): Seconds {
  const first = bars[0];
  const frame = first === undefined ? undefined : frames[first.bar];
  if (first === undefined || frame === undefined) return seconds(0);
  const fromTheStart = first.bar === 0 && first.from === 0;
  const length = (asked ?? (fromTheStart ? "bar" : "beat")) === "bar" ? meterTicks(frame.meter) : (beatsOf(frame.meter)[0] ?? 0);
  return seconds(length * secondsPerTickOf(frame, tempoPercent));
}
