import type { Address } from "../score/address.ts";
import type { PipeEvent, PipeNote, Syllable } from "../score/bar.ts";
import type { Edit } from "../score/edit.ts";
import type { Frame } from "../score/frame.ts";
import type { LineId } from "../score/line-id.ts";
import { pipeLineOf } from "../score/line-of.ts";
import { beatsOf, meterOffset } from "../score/meter.ts";
import { type PlacedEvent, placedEvents } from "../score/placed-events.ts";
import type { Score } from "../score/score.ts";
import { isWritable } from "../score/written-values.ts";
import { type Ticks, ticks } from "../units/ticks.ts";
import { isInside, type Stretch } from "./stretch.ts";

/** A run of like notes within one beat: where each begins, at least one, with its words. */
type Run = readonly PlacedEvent<PipeNote>[];

/** What holding repeated notes comes to. */
export interface Holding {
  /** In written order; none: there is nothing to hold. */
  readonly edits: readonly Edit[];
  /** How many notes are struck no more. */
  readonly held: number;
}

/**
 * The edits that make one note of repeated notes within each beat, in written order: a singer says two syllables where the chanter holds. Their
 * words come together under the first. Notes that gracenotes divide already, that are struck in or cut off, are left. In a tuplet, and where the
 * notes are tied to others already, they are tied instead of joined.
 */
export function mergeRepeatedNotes(score: Score, id: LineId, stretch: Stretch | null): Holding {
  const line = pipeLineOf(score, id);
  const edits: Edit[] = [];
  let held = 0;
  for (const [index, bar] of (line?.bars ?? []).entries()) {
    const frame = score.frames[index];
    if (frame === undefined) continue;
    const events = placedEvents(bar);
    const inside = events.filter(({ at }) => isInside(score, { bar: index, at }, stretch));
    for (const run of runsIn(inside, frame)) {
      const [first] = run;
      if (first === undefined || run.length === 1) continue;
      const before = first.index === 0 ? line?.bars[index - 1]?.events.at(-1) : events[first.index - 1]?.event;
      const isHeld = before?.kind === "note" && before.tied;
      edits.push(...mergeOf(first, run, isHeld, (at) => ({ line: id, bar: index, at })));
      held += run.length - 1;
    }
  }
  return { edits, held };
}

function runsIn(events: readonly PlacedEvent<PipeEvent>[], frame: Frame): readonly Run[] {
  const runs: PlacedEvent<PipeNote>[][] = [];
  let last: PlacedEvent<PipeNote> | null = null;
  for (const { at, index, event } of events) {
    if (event.kind === "rest") {
      last = null;
      continue;
    }
    const here = { at, index, event };
    const goesOn = last !== null && joins(last.event, event) && beatAt(frame, last.at) === beatAt(frame, at);
    if (goesOn) runs.at(-1)?.push(here);
    else runs.push([here]);
    last = here;
  }
  return runs;
}

function joins(one: PipeNote, next: PipeNote): boolean {
  return one.note === next.note && !one.tied && !one.cutOff && !next.strikeIn && next.gracenotes.length === 0;
}

function mergeOf(first: PlacedEvent<PipeNote>, run: Run, isHeld: boolean, place: (at: Ticks) => Address): readonly Edit[] {
  const sung = run.filter(({ event }) => event.syllables.length > 0);
  const words: readonly Edit[] = sung.every((one) => one === first)
    ? []
    : [
        ...sung.filter((one) => one !== first).map(({ at }) => ({ kind: "syllables", at: place(at), syllables: [] }) as const),
        { kind: "syllables", at: place(first.at), syllables: joined(sung.map(({ event }) => event.syllables)) },
      ];
  const length = ticks(run.reduce((sum, { event }) => sum + event.ticks, 0));
  const last = run.at(-1)?.event;
  const isPlain = !isHeld && last?.tied === false && !last.cutOff && run.every(({ event }) => event.tuplet === null);
  if (isPlain && isWritable(length, null)) return [...words, { kind: "resize", at: place(first.at), ticks: length }];
  return [...words, ...run.slice(0, -1).map(({ at }) => ({ kind: "tie", at: place(at), tied: true }) as const)];
}

/** Syllables sung on one note, verse by verse: a word's parts close up, words keep a space. */
function joined(words: readonly (readonly Syllable[])[]): readonly Syllable[] {
  const verses = Math.max(...words.map((syllables) => syllables.length));
  return Array.from({ length: verses }, (_, verse) =>
    words
      .flatMap((syllables) => syllables[verse] ?? [])
      .reduce((one, next) => ({ text: one.text + (one.hyphen || one.text === "" ? "" : " ") + next.text, hyphen: next.hyphen }), {
        text: "",
        hyphen: false,
      }),
  );
}

/** Which beat of its bar a moment falls in, from 0. */
function beatAt(frame: Frame, at: number): number {
  let end = 0;
  const inMeter = meterOffset(frame) + at;
  return beatsOf(frame.meter).findIndex((length) => {
    end += length;
    return inMeter < end;
  });
}
