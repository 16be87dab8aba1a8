import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { equalHertz } from "../pitch/reference-pitch.ts";
import { concertPitch, pitchFromSpelling } from "../pitch/spelling.ts";
import { intervalBetween, type Transposition, transposedSpelling } from "../pitch/transpose.ts";
import { type Cents, centsBetween, shiftedByCents } from "../units/cents.ts";
import type { Hertz } from "../units/hertz.ts";
import { CHANTER_NOTES, type ChanterNote, isCrossFingered } from "./chanter-note.ts";
import type { PipeSetup } from "./pipe-setup.ts";
import { centsInScale } from "./scales.ts";
import { writtenSpellingOf } from "./written-pitch.ts";

const WRITTEN_LOW_A = concertPitch("A4");

/** All that follows from a setup alone, for every chanter note; computed once for each setup, since it is asked for every note. */
interface Sounding {
  readonly transposition: Transposition;
  readonly cents: Readonly<Record<ChanterNote, Cents>>;
  readonly hertz: Readonly<Record<ChanterNote, Hertz>>;
  readonly concert: Readonly<Record<ChanterNote, ConcertPitch>>;
}

const soundings = new WeakMap<PipeSetup, Sounding>();

/** Where a note sounds, cents over low A; negative for low G. */
export function centsOverLowA(setup: PipeSetup, note: ChanterNote): Cents {
  return soundingOf(setup).cents[note];
}

/** What a note truly sounds. */
export function hertzOf(setup: PipeSetup, note: ChanterNote): Hertz {
  return soundingOf(setup).hertz[note];
}

/** What a note is called at concert pitch: its written pitch moved by the interval from written A4 to what the piper calls low A. */
export function concertPitchOf(setup: PipeSetup, note: ChanterNote): ConcertPitch {
  return soundingOf(setup).concert[note];
}

/** How far a note sounds above (below, if negative) its own concert pitch as the band, in equal temperament, has it. */
export function centsOffBand(setup: PipeSetup, note: ChanterNote, bandA: Hertz): Cents {
  return centsBetween(equalHertz(concertPitchOf(setup, note), bandA), hertzOf(setup, note));
}

/** What to add to the written pitch to get the concert pitch: diatonic 1, chromatic 2 for a B chanter; an octave less for smallpipes. */
export function transpositionOf(setup: PipeSetup): Transposition {
  return soundingOf(setup).transposition;
}

/** The notes that this setup plays, lowest first: the nine, and the cross-fingered ones that speak. */
export function notesThatSpeak(setup: PipeSetup): readonly ChanterNote[] {
  return CHANTER_NOTES.filter((note) => speaks(setup, note));
}

/** Whether a note can be played on this setup. */
export function speaks(setup: PipeSetup, note: ChanterNote): boolean {
  return !isCrossFingered(note) || setup.crossFingerings.some((own) => own.note === note && own.speaks);
}

function soundingOf(setup: PipeSetup): Sounding {
  const found = soundings.get(setup);
  if (found) return found;
  const transposition = intervalBetween(WRITTEN_LOW_A, setup.lowAIs);
  const cents = forEveryNote((note) => ownCents(setup, note));
  const sounding: Sounding = {
    transposition,
    cents,
    hertz: forEveryNote((note) => shiftedByCents(setup.lowA, cents[note])),
    concert: forEveryNote((note) =>
      pitchFromSpelling(transposedSpelling(writtenSpellingOf(note), transposition.diatonic, transposition.chromatic)),
    ),
  };
  soundings.set(setup, sounding);
  return sounding;
}

function ownCents(setup: PipeSetup, note: ChanterNote): Cents {
  if (!isCrossFingered(note)) return centsInScale(setup.scale, note);
  const own = setup.crossFingerings.find((fingering) => fingering.note === note);
  if (!own) throw new RangeError(`The setup says nothing of ${note}.`);
  return own.cents;
}

function forEveryNote<Value>(value: (note: ChanterNote) => Value): Readonly<Record<ChanterNote, Value>> {
  return Object.fromEntries(CHANTER_NOTES.map((note) => [note, value(note)])) as Record<ChanterNote, Value>;
}
