import type { Address } from "../score/address.ts";
import type { PipeEvent, PipeNote } from "../score/bar.ts";
import type { Frame } from "../score/frame.ts";
import { placedEvents } from "../score/placed-events.ts";
import { playedOrder } from "../score/played-order.ts";
import type { PipeLine, Score } from "../score/score.ts";
import { type GracePlace, secondsIn } from "./grace-place.ts";
import { beatAround, endsPart, type SitePlace } from "./site-places.ts";

/** A note that gracenotes may lead into, with all that decides which. */
export interface GraceSite extends GracePlace {
  /** How long it lasts with all it is tied to, ticks. */
  readonly lasts: number;
  readonly place: SitePlace;
  /** How long the beat is that it begins in, ticks. */
  readonly beat: number;
  readonly before: readonly (GraceSite | null)[];
  /** How many like notes come right before it in the bars as written. */
  readonly likeBefore: number;
  /** How many like notes there are in the run it stands in; 1: none beside it. */
  readonly run: { readonly length: number };
  /** The tune leans on it: it lasts a beat or more, or longer than the note after it. */
  readonly held: boolean;
  /** It is longer than the note right before it, which is the first of its beat. */
  readonly snapped: boolean;
  /** A part ends with it: a repeat, a section, the tune, or a phrase that is cut off. */
  readonly closes: boolean;
  /** A syllable sung earlier goes on here. */
  readonly inMelisma: boolean;
}

interface Writable extends Omit<GraceSite, "seconds" | "lasts" | "before" | "run" | "held" | "snapped" | "closes"> {
  seconds: number;
  lasts: number;
  readonly before: (Writable | null)[];
  readonly run: { length: number };
  held: boolean;
  snapped: boolean;
  closes: boolean;
}

/** The sites of one line, bar by bar. */
type Written = readonly (readonly Writable[])[];

const known = new WeakMap<PipeLine, { readonly frames: readonly Frame[]; readonly sites: readonly GraceSite[] }>();

/**
 * Every note of a line that is not the continuation of a tie, first to last as written. Only a cut-off silences the chanter: a note after a
 * rest follows the one held through it, unless the setup can rest, and a strike-in that a repeat leads back to follows what sounds then.
 * The same list for the same line and frames.
 */
export function graceSites({ frames }: Pick<Score, "frames">, line: PipeLine): readonly GraceSite[] {
  const kept = known.get(line);
  if (kept?.frames === frames) return kept.sites;
  const written = sitesAsWritten(frames, line);
  joinAsPlayed(frames, line, written);
  const sites = written.flat();
  for (const [index, site] of sites.entries()) weigh(site, sites[index - 1], sites[index + 1]);
  known.set(line, { frames, sites });
  return sites;
}

function sitesAsWritten(frames: readonly Frame[], line: PipeLine): Written {
  /** The note that sounds up to here; null after silence. */
  let last: Writable | null = null;
  let tied = false;
  let sung = false;
  return frames.map((frame, bar) => {
    const events = placedEvents(line.bars[bar] ?? { events: [] as readonly PipeEvent[] });
    const sites: Writable[] = [];
    for (const { at, event } of events) {
      if (event.kind === "rest") {
        tied = false;
        sung = false;
        if (line.setup.canRest) last = null;
        continue;
      }
      const before: Writable | null = last;
      if (tied && before !== null && before.note.note === event.note) goOn(before, frame, event);
      else {
        const hasWord = event.syllables.some(({ text }) => text !== "");
        last = siteOf(frame, { line: line.id, bar, at }, event, event.strikeIn ? null : before, sung && !hasWord);
        sung ||= hasWord;
        sites.push(last);
      }
      tied = event.tied;
      if (event.cutOff && last !== null) last.closes = true;
      if (event.cutOff) last = null;
    }
    if (last !== null && events.at(-1)?.event.kind === "note") last.closes ||= endsPart(frames, bar);
    return sites;
  });
}

function siteOf(frame: Frame, address: Address, note: PipeNote, before: Writable | null, inMelisma: boolean): Writable {
  const isLike = before !== null && before.note.note === note.note;
  const run = isLike ? before.run : { length: 0 };
  run.length += 1;
  return {
    ...beatAround(frame, address.at),
    address,
    note,
    seconds: secondsIn(frame, note.ticks),
    before: [],
    likeBefore: run.length - 1,
    run,
    held: false,
    snapped: false,
    closes: false,
    inMelisma,
    lasts: note.ticks,
  };
}

/** A tie leads on into another event. */
function goOn(site: Writable, frame: Frame, { ticks }: PipeNote): void {
  site.lasts += ticks;
  site.seconds += secondsIn(frame, ticks);
}

/** Compares a note with those beside it, as written. */
function weigh(site: Writable, previous: Writable | undefined, next: Writable | undefined): void {
  site.held = site.lasts >= site.beat || site.lasts > (next?.lasts ?? site.beat);
  const follows = previous !== undefined && site.before.includes(previous) && site.address.bar === previous.address.bar;
  site.snapped = follows && site.place === "between" && previous.place !== "between" && site.lasts > previous.lasts;
}

/** Tells each site what sounds before it, in the order in which bars are played. */
function joinAsPlayed(frames: readonly Frame[], line: PipeLine, written: Written): void {
  let sounding: Writable | null = null;
  for (const bar of playedOrder(frames)) {
    const waiting = [...(written[bar] ?? [])];
    for (const { at, event } of placedEvents(line.bars[bar] ?? { events: [] as readonly PipeEvent[] })) {
      if (event.kind === "rest") {
        if (line.setup.canRest) sounding = null;
        continue;
      }
      if (waiting[0]?.address.at === at) {
        const site = waiting.shift() as Writable;
        if (!site.before.includes(sounding)) site.before.push(sounding);
        sounding = site;
      }
      if (event.cutOff) sounding = null;
    }
  }
}

/** Whether a like note sounds right before a site, on one at least of the ways that playing reaches it. */
export function isLike({ before, note }: GraceSite): boolean {
  return before.some((one) => one?.note.note === note.note);
}
