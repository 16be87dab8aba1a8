import type { ConcertEvent, DoublingBar, PipeEvent } from "../score/bar.ts";
import { barNumber } from "../score/bar-number.ts";
import { eventsOf } from "../score/doubling.ts";
import type { BarRange } from "../score/edit.ts";
import type { Frame, Meter } from "../score/frame.ts";
import type { LineEvent } from "../score/like-events.ts";
import { MOST_BARS, MOST_BEATS } from "../score/limits.ts";
import { frameTicks, isShort, meterTicks } from "../score/meter.ts";
import { sameFrame } from "../score/same-frame.ts";
import type { Line, Score } from "../score/score.ts";
import { isWritable } from "../score/written-values.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import type { Ticks } from "../units/ticks.ts";
import { isRange } from "./bars-in-and-out.ts";
import { restOf } from "./events-made.ts";
import { pieceOf } from "./pieces.ts";
import { NO_SUCH_BAR, TOO_SHORT } from "./refusals.ts";
import { type AnyBar, withLineBars } from "./with-bars.ts";

/** Bars whose bar lines may move among each other, since nothing printed stands on them. */
interface Run {
  readonly first: number;
  readonly last: number;
}

/** A run in its new meter. */
interface Rebarred {
  readonly frames: readonly Frame[];
  /** For each line of the score, in order. */
  readonly bars: readonly (readonly AnyBar[])[];
}

/**
 * Gives bars another meter. The music keeps its rhythm and the bar lines move through it; where no one plays yet the number of bars stays instead.
 * Sections, repeats, endings, keys and tempos stay where they are in the music: it is refused when one of them would begin inside a bar.
 * The last bar is filled up with a rest.
 */
export function changeMeter(score: Score, range: BarRange, meter: Meter): Outcome<Score> {
  if (!isRange(score, range)) return NO_SUCH_BAR;
  if (!isMeter(meter)) return refused(`A meter has 1 to ${MOST_BEATS} beats of a half, a quarter, an eighth or a sixteenth.`);
  const frames: Frame[] = [...score.frames.slice(0, range.first)];
  const bars: AnyBar[][] = score.lines.map((line) => [...line.bars.slice(0, range.first)]);
  for (const run of runsOf(score, range)) {
    const made = rebarred(score, run, meter, run.last === range.last);
    if (!made.ok) return made;
    frames.push(...made.value.frames);
    made.value.bars.forEach((added, line) => {
      bars[line]?.push(...added);
    });
  }
  frames.push(...score.frames.slice(range.last + 1));
  if (frames.length > MOST_BARS) return refused(`A sketch has at most ${MOST_BARS} bars.`);
  const lines = score.lines.map((line, index) => withLineBars(line, [...(bars[index] ?? []), ...line.bars.slice(range.last + 1)]));
  const same = frames.length === score.frames.length;
  const kept = frames.map((frame, bar) => (same && sameFrame(frame, score.frames[bar] as Frame) ? (score.frames[bar] as Frame) : frame));
  return done({ ...score, frames: kept, lines });
}

/** Whether a meter is one a score may have. */
export function isMeter(meter: Meter): boolean {
  return Number.isInteger(meter.beats) && meter.beats >= 1 && meter.beats <= MOST_BEATS && [2, 4, 8, 16].includes(meter.unit);
}

function runsOf(score: Score, { first, last }: BarRange): readonly Run[] {
  const runs: Run[] = [];
  let start = first;
  for (let bar = first; bar <= last; bar += 1) {
    if (bar < last && !standsApart(score.frames[bar] as Frame, score.frames[bar + 1] as Frame)) continue;
    runs.push({ first: start, last: bar });
    start = bar + 1;
  }
  return runs;
}

/** Whether the bar line between two bars has to stay where it is in the music. */
function standsApart(left: Frame, right: Frame): boolean {
  return (
    isShort(left) ||
    isShort(right) ||
    left.repeatEnd ||
    right.repeatStart ||
    right.section !== null ||
    right.tune !== null ||
    left.ending !== right.ending ||
    left.key.tonic !== right.key.tonic ||
    left.key.mode !== right.key.mode ||
    left.tempo.beat !== right.tempo.beat ||
    left.tempo.perMinute !== right.tempo.perMinute
  );
}

function rebarred(score: Score, run: Run, meter: Meter, isLast: boolean): Outcome<Rebarred> {
  const old = score.frames.slice(run.first, run.last + 1);
  const [head] = old as [Frame];
  const length = meterTicks(meter);
  const name = barNumber(score, run.first);
  if (isShort(head)) {
    if ((head.short as number) >= length)
      return refused(`Bar ${name} is as long as a whole bar of the new meter. Make it a whole bar first.`);
    return done(kept(score, run, (frame) => ({ ...frame, meter })));
  }
  if (old.every((frame) => frameTicks(frame) === length)) return done(kept(score, run, (frame) => ({ ...frame, meter, short: null })));
  if (isUnplayed(score, run) && old.every((frame) => frame.chords.every((chord) => chord.at < length)))
    return done(emptied(score, run, meter));
  const total = old.reduce((sum, frame) => sum + frameTicks(frame), 0);
  const count = Math.ceil(total / length);
  const padding = count * length - total;
  if (padding > 0 && !isLast) {
    return refused(`What follows bar ${barNumber(score, run.last)} would begin inside a bar. Change the meter section by section.`);
  }
  const bars: (readonly AnyBar[])[] = [];
  for (const line of score.lines) {
    const cut = rebarredLine(score, line, run, length, padding, count);
    if (!cut.ok) return cut;
    bars.push(cut.value);
  }
  return done({ frames: framesFor(old, meter, count), bars });
}

/** The run with its bar lines where they were. */
function kept(score: Score, run: Run, change: (frame: Frame) => Frame): Rebarred {
  return {
    frames: score.frames.slice(run.first, run.last + 1).map(change),
    bars: score.lines.map((line) => line.bars.slice(run.first, run.last + 1)),
  };
}

/** As many bars as before, empty and in the new meter. */
function emptied(score: Score, run: Run, meter: Meter): Rebarred {
  const rest = restOf(meterTicks(meter));
  return {
    frames: score.frames.slice(run.first, run.last + 1).map((frame) => ({ ...frame, meter, short: null })),
    bars: score.lines.map((line) =>
      (line.bars.slice(run.first, run.last + 1) as readonly AnyBar[]).map((bar) =>
        bar.kind === "doubling" ? bar : { kind: bar.kind, events: [rest] },
      ),
    ),
  };
}

function isUnplayed(score: Score, run: Run): boolean {
  return score.lines.every((line) => {
    for (let bar = run.first; bar <= run.last; bar += 1)
      if (eventsOf(score, line, bar).some((event) => event.kind === "note")) return false;
    return true;
  });
}

function framesFor(old: readonly Frame[], meter: Meter, count: number): readonly Frame[] {
  const [head] = old as [Frame];
  const length = meterTicks(meter);
  let start = 0;
  const chords = old.flatMap((frame) => {
    const here = frame.chords.map((chord) => ({ ...chord, at: chord.at + start }));
    start += frameTicks(frame);
    return here;
  });
  return Array.from({ length: count }, (_, index) => ({
    ...head,
    meter,
    short: null,
    section: index === 0 ? head.section : null,
    tune: index === 0 ? head.tune : null,
    chords: chords
      .filter((chord) => Math.floor(chord.at / length) === index)
      .map((chord) => ({ ...chord, at: (chord.at - index * length) as Ticks })),
    repeatStart: index === 0 && head.repeatStart,
    repeatEnd: index === count - 1 && old.at(-1)?.repeatEnd === true,
  }));
}

function rebarredLine(score: Score, line: Line, run: Run, length: number, padding: number, count: number): Outcome<readonly AnyBar[]> {
  const doubling = sameDoubling(line, run);
  if (doubling !== null) return done(Array.from({ length: count }, () => doubling));
  const bars: LineEvent[][] = Array.from({ length: count }, () => []);
  const events: LineEvent[] = [];
  for (let bar = run.first; bar <= run.last; bar += 1) events.push(...eventsOf(score, line, bar));
  const last = events.at(-1);
  if (padding > 0) {
    if (last?.kind === "note") events[events.length - 1] = { ...last, tied: false };
    events.push(restOf(padding));
  }
  let at = 0;
  for (const event of events) {
    const end = at + event.ticks;
    const first = Math.floor(at / length);
    const final = Math.ceil(end / length) - 1;
    if (event.tuplet !== null && final > first) return refused(`A bar line would cut a triplet or duplet on the ${line.name} line.`);
    for (let bar = first; bar <= final; bar += 1) {
      const piece = Math.min(end, (bar + 1) * length) - Math.max(at, bar * length);
      if (!isWritable(piece, event.tuplet)) return TOO_SHORT;
      bars[bar]?.push(pieceOf(event, piece, event.tuplet, bar - first, final - first + 1));
    }
    at = end;
  }
  return done(
    bars.map((one): AnyBar => {
      // Where no one plays, one rest for the whole bar, not what the old bar lines left of several.
      const events = one.every((event) => event.kind === "rest") ? [restOf(length)] : one;
      return line.kind === "pipes" ? { kind: "pipes", events: events as PipeEvent[] } : { kind: "own", events: events as ConcertEvent[] };
    }),
  );
}

/** The doubling that a player does all through the run, or null. */
function sameDoubling(line: Line, run: Run): DoublingBar | null {
  const bars = (line.bars as readonly AnyBar[]).slice(run.first, run.last + 1);
  const [first] = bars;
  if (first?.kind !== "doubling") return null;
  return bars.every((bar) => bar.kind === "doubling" && bar.of === first.of && bar.octaves === first.octaves) ? first : null;
}
