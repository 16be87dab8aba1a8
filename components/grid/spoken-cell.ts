import { groupInWords } from "../../src/arranging/named-group.ts";
import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import { crossingOf } from "../../src/pipes/crossing.ts";
import { spokenPassing } from "../../src/pipes/crossing-words.ts";
import { embellishmentOf } from "../../src/pipes/embellishments.ts";
import type { GracenotePlace } from "../../src/pipes/gracenote-group.ts";
import { leadingToneOf } from "../../src/pipes/leading-tone.ts";
import { spokenNote } from "../../src/pipes/note-names.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { centsOffBand, concertPitchOf, speaks } from "../../src/pipes/sounding.ts";
import { spokenPitch } from "../../src/pitch/spelling.ts";
import type { Frame, Meter } from "../../src/score/frame.ts";
import { beatsOf } from "../../src/score/meter.ts";
import type { Hertz } from "../../src/units/hertz.ts";
import { spokenOff } from "./grid-rows.ts";

/** What a cell of the grid is, in facts. */
export interface CellFacts {
  /** As the reader counts bars. */
  readonly barNumber: number;
  readonly frame: Frame;
  /** From the start of the bar. */
  readonly at: number;
  /** The note that stands there and how it does; null for none. */
  readonly here:
    | {
        readonly kind: "note";
        readonly note: ChanterNote;
        readonly ticks: number;
        readonly begins: boolean;
        readonly gracenotes: readonly PlainNote[];
        /** What sounds before it, or null. */
        readonly before: ChanterNote | null;
        readonly strikeIn: boolean;
        readonly cutOff: boolean;
      }
    | { readonly kind: "held-rest"; readonly note: ChanterNote }
    | { readonly kind: "empty"; readonly row: ChanterNote };
  /** Numbers of findings about it. */
  readonly findings: readonly number[];
}

/** The spoken name of a cell: place, note, length, concert pitch, marks, findings. Sharps and flats are words. */
export function spokenCell(facts: CellFacts, setup: PipeSetup, bandA: Hertz): string {
  const { here, frame } = facts;
  const place = `Bar ${facts.barNumber}, ${spokenBeat(frame.meter, facts.at)}.`;
  const findings = facts.findings.map((number) => ` Finding ${number}.`).join("");
  if (here.kind === "empty") return `${place} ${capital(spokenNote(here.row))}, empty.${findings}`;
  if (here.kind === "held-rest") return `${place} Rest, ${spokenNote(here.note)} sounds on.${findings}`;
  const name = capital(spokenNote(here.note)) + (isLeadingTone(setup, frame, here.note) ? ", leading tone" : "");
  if (!here.begins) return `${place} ${name}, held.${findings}`;
  const marks = [
    here.strikeIn ? "Strike-in." : "",
    here.gracenotes.length > 0 ? `${spokenGroup(here.gracenotes, here)}.` : "",
    spokenPassing(crossingOf(setup, here.before, here.note, here.gracenotes).notes),
    here.cutOff ? "Cut-off after it." : "",
    speaks(setup, here.note) ? "" : "Outside this setup.",
  ].filter((mark) => mark !== "");
  const pitch = `${spokenPitch(concertPitchOf(setup, here.note))}, ${spokenOff(centsOffBand(setup, here.note, bandA))}.`;
  return [`${place} ${name}, ${spokenLength(frame.meter, here.ticks)}. ${pitch}`, ...marks].join(" ") + findings;
}

/** Gracenotes for the ear: `G gracenote`, `Light throw, low G D C`; those without a name by their notes, `Gracenotes high G E`. */
function spokenGroup(gracenotes: readonly PlainNote[], place: GracenotePlace): string {
  const known = embellishmentOf(gracenotes, place);
  const notes = gracenotes.map(spokenNote).join(" ");
  if (known === null) return `${gracenotes.length === 1 ? "Gracenote" : "Gracenotes"} ${notes}`;
  const name = capital(groupInWords(known));
  return gracenotes.length === 1 ? name : `${name}, ${notes}`;
}

/** Whether a note is the semitone under the tonic of a bar's key. */
export function isLeadingTone(setup: PipeSetup, frame: Frame, note: ChanterNote): boolean {
  const tone = leadingToneOf(setup, frame.key);
  return tone.kind !== "none" && tone.note === note;
}

/** A place in a bar: `beat 3`, `beat 2 and a half`, `beat 1 and 1 of 8`. */
export function spokenBeat(meter: Meter, at: number): string {
  const { beat, into, length } = beatAt(meter, at);
  if (into === 0) return `beat ${beat}`;
  const [top, bottom] = fraction(into, length);
  return `beat ${beat} and ${FRACTIONS[`${top}/${bottom}`] ?? `${top} of ${bottom}`}`;
}

/** A length in beats of the meter: `two beats`, `half a beat`, `one and a half beats`. */
export function spokenLength(meter: Meter, length: number): string {
  const beat = beatsOf(meter)[0] as number;
  const whole = Math.floor(length / beat);
  const rest = length - whole * beat;
  const words = NUMBERS[whole] ?? String(whole);
  if (rest === 0) return whole === 1 ? "one beat" : `${words} beats`;
  const [top, bottom] = fraction(rest, beat);
  const part = FRACTIONS[`${top}/${bottom}`] ?? `${top} of ${bottom}`;
  if (whole === 0) return part === "a half" ? "half a beat" : `${part} of a beat`;
  return `${words} and ${part} beats`;
}

/** The beat (counted from 1) that a place lies in, and how far into it. */
export function beatAt(meter: Meter, at: number): { readonly beat: number; readonly into: number; readonly length: number } {
  let start = 0;
  let beat = 0;
  for (const length of beatsOf(meter)) {
    beat += 1;
    if (at < start + length) return { beat, into: at - start, length };
    start += length;
  }
  return { beat, into: 0, length: 1 };
}

const NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
const FRACTIONS: Readonly<Record<string, string>> = {
  "1/2": "a half",
  "1/3": "a third",
  "2/3": "two thirds",
  "1/4": "a quarter",
  "3/4": "three quarters",
  "1/8": "an eighth",
  "3/8": "three eighths",
  "5/8": "five eighths",
  "7/8": "seven eighths",
  "1/6": "a sixth",
  "5/6": "five sixths",
};

function fraction(part: number, whole: number): readonly [number, number] {
  const divisor = common(part, whole);
  return [part / divisor, whole / divisor];
}

function common(one: number, other: number): number {
  return other === 0 ? one : common(other, one % other);
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
