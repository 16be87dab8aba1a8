import { isCrossFingered, type PlainNote } from "../pipes/chanter-note.ts";
import type { Holes } from "../pipes/pipe-setup.ts";
import { writtenSpellingOf } from "../pipes/written-pitch.ts";
import type { Spelling } from "../pitch/concert-pitch.ts";
import type { Key } from "../pitch/key.ts";
import { alterInKey } from "../pitch/key-signature.ts";
import { spellingOf } from "../pitch/spelling.ts";
import { transposed } from "../pitch/transpose.ts";
import type { Syllable } from "../score/bar.ts";
import type { Frame } from "../score/frame.ts";
import { isPipeNote, type LineEvent, type LineNote, soundAlike } from "../score/like-events.ts";
import { frameTicks } from "../score/meter.ts";
import { placedEvents } from "../score/placed-events.ts";
import { type WrittenValue, writtenValues } from "../score/written-values.ts";
import type { Ticks } from "../units/ticks.ts";
import type { BarContext, Reading } from "./bar-context.ts";

/** A head as it is printed. */
export interface Head {
  readonly spelling: Spelling;
  /** The accidental printed before it, in semitones; null where none is. */
  readonly accidental: number | null;
}

/** One printed sign: a note or a rest of one written value. An event of an odd length is several of them, tied. */
export interface BarSign {
  /** From the start of the bar. */
  readonly at: Ticks;
  readonly value: WrittenValue;
  /** Where its event begins: all its signs share it. */
  readonly eventAt: Ticks;
  /** Place of the event in the bar's list. */
  readonly event: number;
  /** A rest that stands for the whole bar, in its middle. */
  readonly wholeBar: boolean;
  /** Lowest first; none for a rest. */
  readonly heads: readonly Head[];
  /** Tied to the sign after it, in this bar or the next. */
  readonly tied: boolean;
  readonly gracenotes: readonly PlainNote[];
  /** The chart of the note where it has to be shown. */
  readonly holes: Holes | null;
  readonly syllables: readonly Syllable[];
  readonly strikeIn: boolean;
  /** On the last sign of its event. */
  readonly cutOff: boolean;
}

/** What is printed where nothing fits: the shortest value there is. */
const LEAST: Omit<WrittenValue, "ticks" | "tuplet"> = { base: 32, dots: 0 };

/** The written pitches of a note of a part, lowest first. */
export function writtenSpellings(note: LineNote, reading: Reading): readonly Spelling[] {
  if (isPipeNote(note)) return [writtenSpellingOf(note.note)];
  if (reading.kind === "pipes") throw new RangeError("A concert note has no place in a pipe part.");
  const { diatonic, chromatic } = reading.transposition;
  return note.pitches.map((pitch) => spellingOf(transposed(pitch, diatonic, chromatic)));
}

/** A bar's events as printed signs, accidentals decided. */
export function barSigns(events: readonly LineEvent[], context: Pick<BarContext, Needed>): readonly BarSign[] {
  const frame = context as Pick<Frame, "meter" | "short"> as Frame;
  const accidentals = new Accidentals(context);
  const leadsOn = (index: number) => (index === events.length - 1 ? context.tieOut : isTiedOn(events[index], events[index + 1]));
  const charted = new Set<string>(context.chartsBefore);
  const signs: BarSign[] = [];
  for (const { at, index, event } of placedEvents({ events })) {
    const wholeBar = event.kind === "rest" && event.ticks === frameTicks(frame);
    const values = wholeBar ? [wholeRest(event.ticks)] : valuesOf(at, event, frame);
    const spellings = event.kind === "note" ? writtenSpellings(event, context.reading) : [];
    const isHeld = index === 0 ? context.tieIn : leadsOn(index - 1);
    const holes = holesToShow(event, isHeld, context, charted);
    let from: number = at;
    for (const [place, value] of values.entries()) {
      const last = place === values.length - 1;
      const heldOver = place > 0 || (isHeld && (index > 0 || !context.respelled));
      const pipes = event.kind === "note" && isPipeNote(event) ? event : null;
      signs.push({
        at: from as Ticks,
        value,
        eventAt: at,
        event: index,
        wholeBar,
        heads: accidentals.heads(spellings, heldOver),
        tied: event.kind === "note" && (!last || leadsOn(index)),
        gracenotes: place === 0 ? (pipes?.gracenotes ?? []) : [],
        holes: place === 0 ? holes : null,
        syllables: place === 0 && event.kind === "note" ? event.syllables : [],
        strikeIn: place === 0 && pipes?.strikeIn === true,
        cutOff: last && pipes?.cutOff === true,
      });
      from += value.ticks;
    }
  }
  return signs;
}

type Needed = "reading" | "meter" | "short" | "key" | "tieIn" | "respelled" | "tieOut" | "altersBefore" | "charts" | "chartsBefore";

function wholeRest(ticks: Ticks): WrittenValue {
  return { base: 1, dots: 0, tuplet: null, ticks };
}

function valuesOf(at: Ticks, { kind, ticks, tuplet }: LineEvent, frame: Frame): readonly WrittenValue[] {
  const values = writtenValues(at, ticks, tuplet, frame, kind);
  return values.length > 0 ? values : [{ ...LEAST, tuplet, ticks }];
}

/** Whether a tie leads from one event to the next: a tie to another note holds nothing and is not printed; `check` reports it. */
export function isTiedOn(one: LineEvent | undefined, next: LineEvent | undefined): boolean {
  return one?.kind === "note" && one.tied && next?.kind === "note" && soundAlike(one, next);
}

/**
 * A cross-fingered note has its chart where it comes for the first time in a bar and was not in the bar before. For a learner every note has one
 * that is not held on from the note before.
 */
function holesToShow(event: LineEvent, isHeld: boolean, { reading, charts }: Pick<BarContext, Needed>, charted: Set<string>): Holes | null {
  if (reading.kind !== "pipes" || event.kind === "rest" || !isPipeNote(event)) return null;
  if (charts === "every-note") return isHeld ? null : reading.holes[event.note];
  if (!isCrossFingered(event.note) || charted.has(event.note)) return null;
  charted.add(event.note);
  return reading.holes[event.note];
}

/** In force where two alterations were struck together: equal to none, so that whatever comes next is marked. */
const UNCLEAR = Number.NaN;

/**
 * The bar rule: an accidental holds to the end of its bar, in its own octave. A note held over the bar line keeps its own without a sign.
 * What the bar before altered is taken back with a courtesy accidental, but not in a pipe part, where nothing but the nine is expected.
 */
class Accidentals {
  readonly #key: Key;
  readonly #courtesy: Map<string, number>;
  readonly #inForce = new Map<string, number>();

  constructor({ key, altersBefore, reading }: Pick<BarContext, Needed>) {
    this.#key = key;
    this.#courtesy = new Map(reading.kind === "pipes" ? [] : Object.entries(altersBefore));
  }

  /**
   * Two heads on one line or in one space are each given their accidental, or nobody could tell them apart; nor could anybody tell which of the
   * two holds on, so the next head there is given its own again.
   */
  heads(spellings: readonly Spelling[], heldOver: boolean): readonly Head[] {
    const twice = spellings.filter(({ letter, octave }, index) =>
      spellings.some((other, place) => place !== index && other.letter === letter && other.octave === octave),
    );
    const heads = spellings.map((spelling) => {
      const accidental = this.#printed(spelling, heldOver);
      return { spelling, accidental: twice.includes(spelling) && !heldOver ? spelling.alter : accidental };
    });
    for (const { letter, octave } of twice) this.#inForce.set(`${letter}${octave}`, UNCLEAR);
    return heads;
  }

  #printed({ letter, octave, alter }: Spelling, heldOver: boolean): number | null {
    // A note held on leaves in force what was: where it was struck before the bar, none of its signs counts for the notes after it.
    if (heldOver) return null;
    const place = `${letter}${octave}`;
    const inForce = this.#inForce.get(place) ?? alterInKey(this.#key, letter);
    const reminder = this.#courtesy.get(place);
    this.#courtesy.delete(place);
    this.#inForce.set(place, alter);
    return inForce !== alter || (reminder !== undefined && reminder !== alter) ? alter : null;
  }
}

/** What a bar leaves altered against the signature of its key, for the courtesy accidentals of the next: `C5` to its alteration. */
export function altersLeft(events: readonly LineEvent[], reading: Reading, key: Key): Readonly<Record<string, number>> {
  const left: Record<string, number> = {};
  if (reading.kind === "pipes") return left;
  for (const event of events) {
    if (event.kind === "rest") continue;
    for (const { letter, octave, alter } of writtenSpellings(event, reading)) {
      if (alter !== alterInKey(key, letter)) left[`${letter}${octave}`] = alter;
    }
  }
  return left;
}
