import type { PipeEvent } from "../score/bar.ts";
import { placedEvents } from "../score/placed-events.ts";
import type { PipeLine } from "../score/score.ts";
import type { Seconds } from "../units/seconds.ts";
import type { GracenoteTiming } from "./gracenote-time.ts";
import { type AdornedNote, type PitchStep, pitchSteps } from "./pitch-steps.ts";
import { type PlayedEvent, playedEvents } from "./played-events.ts";
import { secondIn, type Timeline } from "./timeline.ts";

/** One unbroken sound of the chanter, from strike-in to cut-off. */
export interface ChanterSpan {
  readonly start: Seconds;
  readonly stop: Seconds;
  /** In order of time, none at the same time as another; the first is at `start`. */
  readonly steps: readonly PitchStep[];
}

/** A note with everything it is tied to. */
interface LongNote extends AdornedNote {
  end: Seconds;
  /** Where a cut-off ends it. */
  cutOff: boolean;
}

/**
 * What the chanter of a line sounds. It cannot rest: a rest inside a phrase holds the note before it until the next one, unless a cut-off
 * came first or the setup can rest. It starts with the first note after silence, whether or not that is marked as a strike-in, and after
 * the last note it stops.
 */
export function chanterSpans(timeline: Timeline, line: PipeLine, gracenotes: GracenoteTiming): readonly ChanterSpan[] {
  const phrases = phrasesOf(
    playedEvents(timeline, line.id, (bar) => line.bars[bar]?.events ?? []),
    line.setup.canRest,
  );
  return phrases.map((phrase) => ({
    start: (phrase[0] as LongNote).start,
    stop: (phrase.at(-1) as LongNote).end,
    steps: pitchSteps(phrase, line.setup, gracenotes),
  }));
}

/** When the chanter of a line first sounds; null when it never does. Cheaper than the spans, of which it is the first start. */
export function firstStrike(timeline: Timeline, line: PipeLine): Seconds | null {
  for (const bar of timeline.bars) {
    for (const { at, event } of placedEvents({ events: line.bars[bar.bar]?.events ?? [] })) {
      const first = Math.max(at, bar.from);
      if (event.kind === "note" && first < Math.min(at + event.ticks, bar.to)) return secondIn(bar, first);
    }
  }
  return null;
}

/** Notes that nothing silences in between, ties joined; a held note is as long as it is held. */
function phrasesOf(events: readonly PlayedEvent<PipeEvent>[], canRest: boolean): readonly (readonly LongNote[])[] {
  const phrases: LongNote[][] = [];
  let last: LongNote | null = null;
  let tied = false;
  for (const played of events) {
    const { event } = played;
    if (event.kind === "rest") {
      tied = false;
      if (canRest) last = null;
      continue;
    }
    const cutOff = event.cutOff && played.toItsEnd;
    if (last !== null && tied && event.note === last.note && event.gracenotes.length === 0) {
      last.end = played.end;
      last.cutOff = cutOff;
    } else {
      const gracenotes = played.fromItsStart ? event.gracenotes : [];
      const next: LongNote = { note: event.note, gracenotes, address: played.address, start: played.start, end: played.end, cutOff };
      if (last === null || last.cutOff) phrases.push([]);
      else last.end = next.start;
      phrases.at(-1)?.push(next);
      last = next;
    }
    tied = event.tied && played.toItsEnd;
  }
  return phrases;
}
