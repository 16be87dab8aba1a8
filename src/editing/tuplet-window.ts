import type { Tuplet } from "../score/bar.ts";
import { barAtTime, barStarts } from "../score/bar-starts.ts";
import { eventsOf } from "../score/doubling.ts";
import type { Frame } from "../score/frame.ts";
import { type LineEvent, soundAlike } from "../score/like-events.ts";
import type { LineId } from "../score/line-id.ts";
import { meterOffset } from "../score/meter.ts";
import type { Line, Score } from "../score/score.ts";
import { tupletGroups } from "../score/tuplet-groups.ts";
import { isWritable } from "../score/written-values.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import type { Ticks } from "../units/ticks.ts";
import { patchedNote } from "./chanter-marks.ts";
import { chainAt, eventAtTime, lineIn, timedEvents } from "./line-time.ts";
import { overwritten } from "./overwrite.ts";
import { continued } from "./pieces.ts";

/** What a new group may last, shortest first: see `tupletGroups`. */
const SPANS = { 3: [240, 480, 960, 1920, 3840], 2: [360, 720, 1440, 2880, 5760] } as const;

const NO_PLACE = refused(
  "A triplet or duplet of that length does not fit here. It begins where its group could begin, and stays inside the bar.",
);

interface Window {
  readonly from: number;
  readonly to: number;
  /** The length its notes are multiples of. */
  readonly step: number;
}

/**
 * The score with room for a tuplet note: where no tuplet of that kind holds the stretch yet, the time around it becomes one. What stood there
 * is heard again on the new grid: each step keeps what sounded as it began.
 */
export function withTupletWindow(score: Score, id: LineId, from: number, length: number, tuplet: NonNullable<Tuplet>): Outcome<Score> {
  if (!isWritable(length, tuplet)) return NO_PLACE;
  if (standsInGroup(score, id, from, from + length, tuplet)) return done(score);
  const line = lineIn(score, id);
  const window = windowAround(score, line, from, length, tuplet);
  if (window === null) return NO_PLACE;
  const steps = Math.round((window.to - window.from) / window.step);
  const fillers: LineEvent[] = [];
  let source: LineEvent | null = null;
  for (let index = 0; index < steps; index += 1) {
    const sounding = eventAtTime(score, line, window.from + index * window.step);
    const event: LineEvent = sounding?.event ?? { kind: "rest", ticks: 0 as Ticks, tuplet };
    const before = fillers.at(-1);
    if (source === event && before !== undefined) {
      fillers[fillers.length - 1] = { ...before, ticks: (before.ticks + window.step) as Ticks };
    } else {
      const begins = (sounding?.from ?? 0) >= window.from;
      fillers.push({ ...untied(begins ? event : continued(event)), ticks: window.step as Ticks, tuplet });
    }
    source = event;
  }
  const laid = overwritten(score, id, window.from, window.to, fillers);
  return laid.ok ? done(tiedAcross(laid.value, score, id, window)) : laid;
}

/** A note goes on into the window, or out of it, as it did before. */
function tiedAcross(score: Score, before: Score, id: LineId, window: Window): Score {
  let mended = score;
  for (const edge of [window.from, window.to]) {
    const chain = chainAt(before, lineIn(before, id), edge);
    if (chain === null || chain.from >= edge) continue;
    const left = eventAtTime(mended, lineIn(mended, id), edge - 1);
    const right = eventAtTime(mended, lineIn(mended, id), edge);
    if (left?.event.kind !== "note" || right?.event.kind !== "note" || !soundAlike(left.event, right.event)) continue;
    mended = patchedNote(mended, id, left.from, (note) => ({ ...note, tied: true }));
  }
  return mended;
}

function untied(event: LineEvent): LineEvent {
  return event.kind === "note" ? { ...event, tied: false } : event;
}

function standsInGroup(score: Score, id: LineId, from: number, to: number, tuplet: 3 | 2): boolean {
  const bar = barAtTime(score.frames, from);
  const start = barStarts(score.frames)[bar] ?? 0;
  return tupletGroups({ events: eventsOf(score, lineIn(score, id), bar) }).some((group) => {
    const begin = start + group.from;
    const step = group.ticks / group.tuplet / 2;
    const onGrid = (from - begin) % step === 0 && (to - begin) % step === 0;
    return group.complete && group.tuplet === tuplet && begin <= from && to <= begin + group.ticks && onGrid;
  });
}

/** The group the note would belong to: three (or two) of its own length where that fits, a longer one it fits into otherwise. */
function windowAround(score: Score, line: Line, from: number, length: number, tuplet: 3 | 2): Window | null {
  const bar = barAtTime(score.frames, from);
  const start = barStarts(score.frames)[bar] ?? 0;
  const end = barStarts(score.frames)[bar + 1] ?? 0;
  const offset = meterOffset(score.frames[bar] as Frame);
  const own = length * tuplet;
  const spans = SPANS[tuplet]
    .filter((span) => span > length)
    .sort((one, other) => Number(other === own) - Number(one === own) || one - other);
  for (const span of spans) {
    const begin = start + Math.floor((from - start + offset) / span) * span - offset;
    if (begin < start || begin + span > end || from + length > begin + span) continue;
    const steps = [1, 2, 4]
      .map((division) => span / tuplet / division)
      .filter((step) => isWritable(step, tuplet) && (from - begin) % step === 0 && length % step === 0);
    // The widest step on which every note that stays keeps its place; where there is none, the widest.
    const staying = timedEvents(score, line, bar).filter(
      (one) => one.from >= begin && one.from < begin + span && (one.from < from || one.from >= from + length),
    );
    const step = steps.find((one) => staying.every((event) => (event.from - begin) % one === 0)) ?? steps[0];
    if (step !== undefined) return { from: begin, to: begin + span, step };
  }
  return null;
}
