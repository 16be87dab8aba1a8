import { notesBefore } from "../../src/arranging/grace-place.ts";
import { gracePlaceAt } from "../../src/arranging/grace-place-at.ts";
import { gracingInWords } from "../../src/arranging/named-group.ts";
import type { Selection } from "../../src/editing/selection.ts";
import { crossingOf } from "../../src/pipes/crossing.ts";
import { crossingSentence, passingInWords } from "../../src/pipes/crossing-words.ts";
import { fingeringOf, type Hole, holesOf, spokenHoles } from "../../src/pipes/fingerings.ts";
import { noteName } from "../../src/pipes/note-names.ts";
import { centsOffBand, concertPitchOf, hertzOf } from "../../src/pipes/sounding.ts";
import { shownPitch } from "../../src/pitch/spelling.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import { barAtTime, barStarts, momentAt } from "../../src/score/bar-starts.ts";
import type { Frame } from "../../src/score/frame.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import type { Cents } from "../../src/units/cents.ts";
import { shownCents } from "../../src/units/shown.ts";
import { chosenNote, chosenStretch } from "./chosen-notes.ts";
import { beatAt, isLeadingTone, spokenBeat, spokenLength } from "./spoken-cell.ts";

/** What is known of the chosen note, in words and figures ready for the eye. */
export interface NoteReading {
  readonly kind: "note";
  readonly name: string;
  /** What it is in the key: `the leading tone`; empty where there is nothing to say. */
  readonly role: string;
  /** What it is graced with: `a light throw`; empty where it is not. */
  readonly graced: string;
  /** What can sound on the way to it, `C, B, low A or low G`, and the whole sentence; both empty where nothing can. */
  readonly passing: string;
  readonly crossing: string;
  /** `bar 19 beats 3 and 4`. */
  readonly place: string;
  /** `2 beats`. */
  readonly length: string;
  readonly concert: string;
  readonly cents: string;
  readonly offBand: Cents;
  readonly hertz: string;
  readonly holes: readonly Hole[];
  readonly spokenHoles: string;
}

/** What the reading line says. */
export type Reading = NoteReading | { readonly kind: "stretch"; readonly words: string } | { readonly kind: "nothing" };

/** Reads what is chosen on a pipe line. */
export function readingOf(score: Score, line: PipeLine, selection: Selection): Reading {
  const held = chosenNote(score, line.id, selection);
  if (held !== null) {
    const frame = score.frames[barAtTime(score.frames, held.from)] as Frame;
    const offBand = centsOffBand(line.setup, held.note, score.bandA);
    return {
      kind: "note",
      name: noteName(held.note),
      role: isLeadingTone(line.setup, frame, held.note) ? "the leading tone" : "",
      ...broughtBy(score, line, held.from),
      place: shownPlace(score, held.from, held.to),
      length: spokenLength(frame.meter, held.to - held.from),
      concert: shownPitch(concertPitchOf(line.setup, held.note)),
      cents: shownCents(offBand),
      offBand,
      hertz: `${hertzOf(line.setup, held.note).toFixed(1)} Hz`,
      holes: fingeringOf(line.setup, held.note),
      spokenHoles: spokenHoles(holesOf(line.setup, held.note)),
    };
  }
  const stretch = chosenStretch(score, line.id, selection);
  if (stretch !== null) return { kind: "stretch", words: shownPlace(score, stretch.from, stretch.to) };
  return { kind: "nothing" };
}

/** What leads into the note at a time: its gracenotes, and what the fingers may let sound on the way. */
function broughtBy(score: Score, line: PipeLine, from: number): Pick<NoteReading, "graced" | "passing" | "crossing"> {
  const place = gracePlaceAt(score, line, momentAt(score.frames, from));
  if (place === null) return { graced: "", passing: "", crossing: "" };
  const { note: to, gracenotes } = place.note;
  const [before = null] = notesBefore(place);
  const crossing = crossingOf(line.setup, before, to, gracenotes);
  return {
    graced: gracingInWords(place),
    passing: passingInWords(crossing.notes),
    crossing: crossingSentence({ from: before, to, gracenotes }, crossing) ?? "",
  };
}

/** From where to where: `bar 19 beat 3`, `bar 19 beats 3 and 4`, `bars 5 to 8`, `bar 4 beat 2 to bar 5 beat 1`. */
export function shownPlace(score: Score, from: number, to: number): string {
  const starts = barStarts(score.frames);
  const first = barAtTime(score.frames, from);
  const last = barAtTime(score.frames, Math.max(from, to - 1));
  const at = from - (starts[first] ?? 0);
  const end = to - (starts[last] ?? 0);
  const meter = (score.frames[first] as Frame).meter;
  const lastMeter = (score.frames[last] as Frame).meter;
  const whole = at === 0 && to === starts[last + 1];
  if (whole && first === last) return `bar ${barNumber(score, first)}`;
  if (whole) return `bars ${barNumber(score, first)} to ${barNumber(score, last)}`;
  const begins = `bar ${barNumber(score, first)} ${spokenBeat(meter, at)}`;
  const lastBeat = beatAt(lastMeter, end - 1).beat;
  if (first !== last) return `${begins} to bar ${barNumber(score, last)} beat ${lastBeat}`;
  const here = beatAt(meter, at);
  if (here.into !== 0 || lastBeat === here.beat) return begins;
  const joined = lastBeat === here.beat + 1 ? "and" : "to";
  return `bar ${barNumber(score, first)} beats ${here.beat} ${joined} ${lastBeat}`;
}
