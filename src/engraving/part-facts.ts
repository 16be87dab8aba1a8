import { playerOf } from "../ensemble/catalogue.ts";
import { partKeyOf } from "../ensemble/part-key.ts";
import type { PlayerId } from "../ensemble/player.ts";
import { CHANTER_NOTES, type ChanterNote, type CrossFingeredNote, isCrossFingered } from "../pipes/chanter-note.ts";
import { holesOf } from "../pipes/fingerings.ts";
import type { Holes, PipeSetup } from "../pipes/pipe-setup.ts";
import { transpositionOf } from "../pipes/sounding.ts";
import { transposedChord } from "../pitch/chord.ts";
import type { Key } from "../pitch/key.ts";
import { fifthsOf } from "../pitch/key-signature.ts";
import type { Transposition } from "../pitch/transpose.ts";
import type { ConcertBar } from "../score/bar.ts";
import { eventsOf } from "../score/doubling.ts";
import type { Frame, Section } from "../score/frame.ts";
import { isPipeNote, type LineEvent } from "../score/like-events.ts";
import { pipeLineOf, pipeLines } from "../score/line-of.ts";
import { isShort } from "../score/meter.ts";
import type { ConcertLine, Line, Score } from "../score/score.ts";
import { isBagUp } from "./bag-up.ts";
import type { BarContext, Closing, EndingBracket, PlacedWords, Reading } from "./bar-context.ts";
import { altersLeft, isTiedOn } from "./bar-signs.ts";
import { STAFF_HEIGHT } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { beginsLine, beginsPart, isPickup } from "./part-breaks.ts";
import { type PartStyle, PLAIN_STYLE } from "./part-style.ts";
import { openingRoom } from "./rooms.ts";

/** What the pipes read: C and F sharp are understood, as in D major, and no signature is printed. */
const PIPE_KEY: Key = { tonic: "D", mode: "major" };

/** Where a bar stands while it is being engraved. */
export interface BarPlace {
  readonly spacing: "desk" | "page";
  readonly width: number;
  /** Whether clef and signature stand just before it, so that it prints none itself. */
  readonly firstInSystem: boolean;
  readonly lastInSystem: boolean;
  /** Plain, if left out. */
  readonly style?: PartStyle;
  /** See `BarContext`; left out, the usual ones. */
  readonly chordBaseline?: number;
  readonly syllableBaseline?: number;
  readonly headingBaseline?: number;
  readonly endingTop?: number;
  readonly chartTop?: number;
}

/** Where chords stand when nothing is in their way, desk pixels above the staff. */
export const CHORD_BASELINE = -13;

/** Where section and tempo stand when nothing is in their way. */
export const HEADING_BASELINE = -32;

/** Where the bracket over an ending runs. */
export const ENDING_TOP = -32;

/** Where charts under the staff begin: clear of a stem that points down from the middle of the staff. */
export const CHART_TOP = STAFF_HEIGHT + 12;

/** Where syllables stand: clear of a stem that points down from the middle of the staff; on the desk clear of any but the lowest. */
export const SYLLABLE_BASELINE = { desk: STAFF_HEIGHT + 29, page: STAFF_HEIGHT + 24 } as const;

/** The key a part is in at a bar, as its player reads it. */
export function writtenKey(line: Line, frame: Frame): Key {
  return line.kind === "pipes" ? PIPE_KEY : partFactsOf(line.player, frame.key).key;
}

/** How a part is read at a bar. */
export function readingOf(line: Line, frame: Frame): Reading {
  if (line.kind === "pipes") return { kind: "pipes", holes: holesOfAll(line.setup) };
  return partFactsOf(line.player, frame.key).reading;
}

/** What follows from player and key alone; asked for every bar of a score, so it is kept with the key. */
interface PartFacts {
  readonly key: Key;
  readonly reading: Reading & { readonly kind: "concert" };
}

const partFacts = new WeakMap<Key, Map<PlayerId, PartFacts>>();

function partFactsOf(id: PlayerId, concertKey: Key): PartFacts {
  const known = partFacts.get(concertKey) ?? new Map<PlayerId, PartFacts>();
  partFacts.set(concertKey, known);
  const found = known.get(id);
  if (found !== undefined) return found;
  const player = playerOf(id);
  const { key, transposition } = partKeyOf(player, concertKey);
  const made: PartFacts = { key, reading: { kind: "concert", clef: player.clef, transposition } };
  known.set(id, made);
  return made;
}

/** Everything the drawing of a bar depends on besides its events. */
export function barContextOf(score: Score, line: Line, bar: number, place: BarPlace): BarContext {
  const frame = score.frames[bar];
  if (frame === undefined) throw new RangeError(`There is no bar ${bar} among ${score.frames.length}.`);
  const before = score.frames[bar - 1];
  const after = score.frames[bar + 1];
  const reading = readingOf(line, frame);
  const eventsBefore = before === undefined ? [] : eventsOf(score, line, bar - 1);
  const events = eventsOf(score, line, bar);
  const tieIn = isTiedOn(eventsBefore.at(-1), events[0]);
  const tieOut = after !== undefined && events.at(-1)?.kind === "note" && isTiedOn(events.at(-1), eventsOf(score, line, bar + 1)[0]);
  const onPage = place.spacing === "page";
  const style = place.style ?? PLAIN_STYLE;
  // On the desk a bar asks no further than its neighbours.
  const partEnds = onPage ? endsPart(score.frames, bar, place.lastInSystem) : after?.section != null && !(bar === 0 && isShort(frame));
  return {
    reading,
    spacing: place.spacing,
    width: place.width,
    meter: frame.meter,
    short: frame.short,
    key: writtenKey(line, frame),
    ...openingOf(line, before, frame, place.firstInSystem),
    tieIn,
    respelled: tieIn && before !== undefined && differ(reading, readingOf(line, before)),
    tieInDrawn: tieIn && place.firstInSystem,
    tieOut,
    tieOutReach: tieOut ? reachOf(score, line, bar, place) : 0,
    altersBefore: before === undefined ? {} : altersLeft(eventsBefore, readingOf(line, before), writtenKey(line, before)),
    chartsBefore: line.kind === "pipes" && !(onPage && place.firstInSystem) ? crossFingeredIn(eventsBefore) : [],
    charts: style.charts,
    closing: closingOf(score.frames, bar, partEnds),
    ending: endingOf(score.frames, bar, partEnds),
    directions: onPage && line.kind === "pipes" && isBagUp(line, bar) ? "bag up" : playsWith(score, line, bar),
    section: onPage ? sectionWords(shownSection(score.frames, bar)) : "",
    tempo: onPage ? tempoOf(before, frame) : null,
    chords: onPage ? chordsOf(line, frame, style) : [],
    chordBaseline: place.chordBaseline ?? CHORD_BASELINE,
    headingBaseline: place.headingBaseline ?? HEADING_BASELINE,
    endingTop: place.endingTop ?? ENDING_TOP,
    chartTop: place.chartTop ?? CHART_TOP,
    syllableBaseline: place.syllableBaseline ?? SYLLABLE_BASELINE[place.spacing],
  };
}

const holesCache = new WeakMap<PipeSetup, Readonly<Record<ChanterNote, Holes>>>();

function holesOfAll(setup: PipeSetup): Readonly<Record<ChanterNote, Holes>> {
  const kept = holesCache.get(setup);
  if (kept !== undefined) return kept;
  const made = Object.fromEntries(CHANTER_NOTES.map((note) => [note, holesOf(setup, note)])) as Record<ChanterNote, Holes>;
  holesCache.set(setup, made);
  return made;
}

type Opening = Pick<BarContext, "keyBefore" | "meterShown" | "opening">;

function openingOf(line: Line, before: Frame | undefined, frame: Frame, firstInSystem: boolean): Opening {
  const opening = frame.repeatStart ? "repeat" : "plain";
  if (before === undefined || firstInSystem) return { keyBefore: null, meterShown: false, opening };
  const keyBefore = writtenKey(line, before);
  const meterShown = before.meter.beats !== frame.meter.beats || before.meter.unit !== frame.meter.unit;
  return { keyBefore: fifthsOf(keyBefore) === fifthsOf(writtenKey(line, frame)) ? null : keyBefore, meterShown, opening };
}

/** A tie that goes on ends at the head of the next bar, or, at the end of a line, just before the bar line. */
function reachOf(score: Score, line: Line, bar: number, place: BarPlace): number {
  const frame = score.frames[bar] as Frame;
  const after = score.frames[bar + 1];
  if (after === undefined || place.lastInSystem) return -2;
  const opening = openingOf(line, frame, after, false);
  const room = openingRoom({ ...opening, key: writtenKey(line, after), meter: after.meter, reading: readingOf(line, after) } as BarContext);
  // Spelled anew, the head has an accidental before it, at which the tie ends.
  if (differ(readingOf(line, frame), readingOf(line, after))) return room - 1;
  return Math.max(place.spacing === "desk" ? 6 : 7, room) + glyphWidth(SIGN.head.black) * 0.4;
}

/** Whether two readings of one part spell the same pitch otherwise. */
function differ(one: Reading, other: Reading): boolean {
  return one.kind === "concert" && other.kind === "concert" && one.transposition.diatonic !== other.transposition.diatonic;
}

function crossFingeredIn(events: readonly LineEvent[]): readonly CrossFingeredNote[] {
  const notes = events.flatMap((event) => (event.kind === "note" && isPipeNote(event) && isCrossFingered(event.note) ? [event.note] : []));
  return [...new Set(notes)].sort();
}

/** Whether something new comes after a bar; at the end of a line a repeat that begins on the next is told by a double bar as well. */
function endsPart(frames: readonly Frame[], bar: number, lastInSystem: boolean): boolean {
  return beginsPart(frames, bar + 1) || (lastInSystem && beginsLine(frames, bar + 1));
}

function closingOf(frames: readonly Frame[], bar: number, partEnds: boolean): Closing {
  const after = frames[bar + 1];
  if (frames[bar]?.repeatEnd) return "repeat";
  if (after === undefined || after.tune !== null) return "final";
  return partEnds ? "double" : "plain";
}

function endingOf(frames: readonly Frame[], bar: number, partEnds: boolean): EndingBracket | null {
  const [before, frame, after] = [frames[bar - 1], frames[bar] as Frame, frames[bar + 1]];
  if (frame.ending === null) return null;
  const opens = before?.ending !== frame.ending || before.repeatEnd;
  const ends = after?.ending !== frame.ending || frame.repeatEnd;
  // A last ending from which the music goes on stays open.
  const stops = frame.ending === 1 || after === undefined || frame.repeatEnd || partEnds;
  return { number: frame.ending, opens, closes: ends && stops };
}

/**
 * What a player is told at the first note of a bar: `with the pipes` where he begins to double them (with several sets of pipes, which),
 * `own line` where he plays on without them.
 */
export function playsWith(score: Score, line: Line, bar: number): string {
  if (line.kind !== "concert" || !sounds(score, line, bar)) return "";
  const own = line.bars[bar];
  const before = lastPlayed(score, line, bar);
  if (own?.kind !== "doubling") return before?.kind === "doubling" ? "own line" : "";
  if (before?.kind === "doubling" && before.of === own.of) return "";
  const pipes = pipeLines(score).length > 1 ? pipeLineOf(score, own.of) : null;
  return `with ${pipes?.name ?? "the pipes"}`;
}

/** The bar in which a player last had a note before another. */
function lastPlayed(score: Score, line: ConcertLine, bar: number): ConcertBar | null {
  for (let before = bar - 1; before >= 0; before -= 1) if (sounds(score, line, before)) return line.bars[before] as ConcertBar;
  return null;
}

function sounds(score: Score, line: ConcertLine, bar: number): boolean {
  return eventsOf(score, line, bar).some(({ kind }) => kind === "note");
}

/** The section that a bar is headed with; one that begins after a pickup is printed where its line begins, over the pickup. */
function shownSection(frames: readonly Frame[], bar: number): Section | null {
  const own = frames[bar]?.section ?? null;
  if (isPickup(frames, bar)) return own ?? frames[bar + 1]?.section ?? null;
  return isPickup(frames, bar - 1) && frames[bar - 1]?.section === null ? null : own;
}

function sectionWords(section: Section | null): string {
  if (section === null) return "";
  return [section.letter, section.name].filter((words) => words !== "").join("  ");
}

/** A tune of a set says its tempo anew. */
function tempoOf(before: Frame | undefined, { tempo, tune }: Frame): BarContext["tempo"] {
  const same = before !== undefined && tune === null && before.tempo.beat === tempo.beat && before.tempo.perMinute === tempo.perMinute;
  return same ? null : { beat: tempo.beat, perMinute: tempo.perMinute };
}

/** Chords as the player reads them; over the pipe part only if they are asked for, and then at written pitch as its notes are. */
function chordsOf(line: Line, frame: Frame, style: PartStyle): readonly PlacedWords[] {
  if (frame.chords.length === 0 || (line.kind === "pipes" && !style.chords)) return [];
  const { diatonic, chromatic } =
    line.kind === "pipes" ? toWrittenA(line.setup) : partFactsOf(line.player, frame.key).reading.transposition;
  return frame.chords.map(({ at, symbol }) => ({ at, text: shownChord(transposedChord(symbol, diatonic, chromatic)) }));
}

/** From concert pitch to where the pipes' notes are written. */
export function toWrittenA(setup: PipeSetup): Transposition {
  const { diatonic, chromatic } = transpositionOf(setup);
  return { diatonic: -diatonic, chromatic: -chromatic };
}

/** Only what stands right after a letter is a flat: the b in `Bbm7b5`, not that of a word. */
function shownChord(symbol: string): string {
  return symbol
    .replace(/(?<=[A-G])b/g, "♭")
    .replace(/b(?=\d)/g, "♭")
    .replaceAll("#", "♯");
}
