import type { PlainNote } from "../pipes/chanter-note.ts";
import { lettersOfGracenotes } from "../pipes/gracenote-letters.ts";
import type { PipeBar, PipeEvent } from "../score/bar.ts";
import { momentAt, timeOf } from "../score/bar-starts.ts";
import type { Edit } from "../score/edit.ts";
import { MOST_GRACENOTES } from "../score/limits.ts";
import { placedEvents } from "../score/placed-events.ts";
import type { PipeLine, Score } from "../score/score.ts";
import { chainAt } from "./line-time.ts";
import { withLine } from "./with-bars.ts";

/** The edit that gives a note its gracenotes. */
export type GracenotesEdit = Extract<Edit, { readonly kind: "gracenotes" }>;

/** What notes of one bar are given, by where they begin. */
type Given = Map<number, readonly PlainNote[]>;

/**
 * The score after many notes of one pipe line were given gracenotes, as one edit after the other would leave it; null where one of them would be
 * refused. A line is graced at once by thousands of them. The same bar with the same gracenotes is the same object again, so that whatever
 * is kept on bars is met again when gracing is looked at one way and then another.
 */
export function graceMany(score: Score, line: PipeLine, edits: readonly GracenotesEdit[]): Score | null {
  const given = new Map<number, Given>();
  for (const { at, gracenotes } of edits) {
    const chain = gracenotes.length > MOST_GRACENOTES ? null : chainAt(score, line, timeOf(score.frames, at));
    if (chain === null) return null;
    const start = momentAt(score.frames, chain.from);
    const inBar: Given = given.get(start.bar) ?? new Map();
    given.set(start.bar, inBar.set(start.at, gracenotes));
  }
  const bars = line.bars.map((bar, index) => gracedBar(bar, given.get(index)));
  const revision = score.revision + edits.length;
  return bars.every((bar, index) => bar === line.bars[index])
    ? { ...score, revision }
    : { ...withLine(score, { ...line, bars }), revision };
}

const known = new WeakMap<PipeBar, Map<string, PipeBar>>();

function gracedBar(bar: PipeBar, given: Given | undefined): PipeBar {
  if (given === undefined) return bar;
  const events = placedEvents(bar).map(({ at, event }) => gracedEvent(event, given.get(at)));
  if (events.every((event, index) => event === bar.events[index])) return bar;
  const variants = known.get(bar) ?? new Map<string, PipeBar>();
  known.set(bar, variants);
  const key = events.map((event) => (event.kind === "note" ? lettersOfGracenotes(event.gracenotes) : "")).join();
  const made = variants.get(key) ?? { kind: "pipes", events };
  variants.set(key, made);
  return made;
}

function gracedEvent(event: PipeEvent, gracenotes: readonly PlainNote[] | undefined): PipeEvent {
  if (gracenotes === undefined || event.kind === "rest") return event;
  return lettersOfGracenotes(gracenotes) === lettersOfGracenotes(event.gracenotes) ? event : { ...event, gracenotes };
}
