import type { ChanterNote } from "../pipes/chanter-note.ts";
import type { Address } from "../score/address.ts";
import type { PipeEvent, PipeNote } from "../score/bar.ts";
import type { Frame } from "../score/frame.ts";
import { beatsOf, meterOffset } from "../score/meter.ts";
import { placedEvents } from "../score/placed-events.ts";
import { playedOrder } from "../score/played-order.ts";
import type { PipeLine, Score } from "../score/score.ts";

/** A note that gracenotes may lead into, with all that decides which. */
export interface GraceSite {
  readonly address: Address;
  readonly note: PipeNote;
  /** How long it lasts with all it is tied to, seconds. */
  readonly seconds: number;
  /** Where in the bar it begins: its first beat, another beat, or between beats. */
  readonly place: "first-beat" | "beat" | "between";
  /** What may sound right before it, once for each way that playing reaches it: repeats lead back. Null after silence. */
  readonly before: readonly (GraceSite | null)[];
  /** How many like notes come right before it in the bars as written. */
  readonly likeBefore: number;
  /** A syllable sung earlier goes on here. */
  readonly inMelisma: boolean;
}

interface Writable extends Omit<GraceSite, "seconds" | "before"> {
  seconds: number;
  readonly before: (Writable | null)[];
}

/**
 * Every note of a line that is not the continuation of a tie, first to last as written. Only a cut-off silences the chanter: a note after a
 * rest follows the one held through it, unless the setup can rest, and a strike-in that a repeat leads back to follows what sounds then.
 */
export function graceSites(score: Score, line: PipeLine): readonly GraceSite[] {
  const sites = new Map<PipeEvent, Map<number, Writable>>();
  const written = sitesAsWritten(score, line, sites);
  const whoBegins = (bar: number, event: PipeEvent, at: number) => sites.get(event)?.get(bar * 1e6 + at);
  let sounding: Writable | null = null;
  for (const bar of playedOrder(score.frames)) {
    for (const { at, event } of placedEvents(line.bars[bar] ?? { events: [] })) {
      if (event.kind === "rest") {
        if (line.setup.canRest) sounding = null;
        continue;
      }
      const site = whoBegins(bar, event, at);
      if (site !== undefined) {
        if (!site.before.includes(sounding)) site.before.push(sounding);
        sounding = site;
      }
      if (event.cutOff) sounding = null;
    }
  }
  return written;
}

function sitesAsWritten(score: Score, line: PipeLine, sites: Map<PipeEvent, Map<number, Writable>>): readonly Writable[] {
  const written: Writable[] = [];
  let last: Writable | null = null;
  let tied = false;
  let sung = false;
  line.bars.forEach((bar, index) => {
    const frame = score.frames[index];
    if (frame === undefined) return;
    for (const { at, event } of placedEvents(bar)) {
      if (event.kind === "rest") {
        tied = false;
        sung = false;
        if (line.setup.canRest) last = null;
        continue;
      }
      const lasts = secondsIn(frame, event.ticks);
      const previous: Writable | null = last;
      if (tied && previous !== null && previous.note.note === event.note) previous.seconds += lasts;
      else {
        const hasWord = event.syllables.some(({ text }) => text !== "");
        const touching = event.strikeIn ? null : previous;
        last = {
          address: { line: line.id, bar: index, at },
          note: event,
          seconds: lasts,
          place: placeOf(frame, at),
          before: [],
          likeBefore: touching !== null && touching.note.note === event.note ? touching.likeBefore + 1 : 0,
          inMelisma: sung && !hasWord,
        };
        sung ||= hasWord;
        written.push(last);
        const places = sites.get(event) ?? new Map<number, Writable>();
        sites.set(event, places.set(index * 1e6 + at, last));
      }
      tied = event.tied;
      if (event.cutOff) last = null;
    }
  });
  return written;
}

/** The notes that may sound right before a site; null after silence, and where playing never comes by. */
export function notesBefore({ before }: GraceSite): readonly (ChanterNote | null)[] {
  return before.length === 0 ? [null] : [...new Set(before.map((site) => site?.note.note ?? null))];
}

function secondsIn({ tempo }: Frame, ticks: number): number {
  return (ticks / tempo.beat) * (60 / tempo.perMinute);
}

function placeOf(frame: Frame, at: number): GraceSite["place"] {
  let beat = 0;
  const inMeter = meterOffset(frame) + at;
  for (const length of beatsOf(frame.meter)) {
    if (beat === inMeter) return beat === 0 ? "first-beat" : "beat";
    beat += length;
  }
  return "between";
}
