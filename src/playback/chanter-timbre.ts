import type { Spectrum } from "../acoustics/partial.ts";
import { type ChanterNote, type CrossFingeredNote, isCrossFingered, type PlainNote } from "../pipes/chanter-note.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { MOST_DULLNESS } from "../pipes/setup-fault.ts";
import { type Decibels, decibels } from "../units/decibels.ts";

/** The four sounds a chanter note is mixed from. */
export const CHANTER_TONES = ["dull", "normal", "bright", "thin"] as const;

export type ChanterTone = (typeof CHANTER_TONES)[number];

/**
 * Harmonics of the four sounds, in decibels, the fundamental first.
 * *Source:* none. Synthetic: no table of a chanter's harmonics could be read, so these are made up to sound right and labelled so.
 */
export const CHANTER_SPECTRA: Readonly<Record<ChanterTone, Spectrum>> = {
  dull: spectrum(0, -2, -5, -9, -13, -17, -21, -25, -29, -33, -37, -41),
  normal: spectrum(-5, 0, -1, -3, -6, -8, -11, -14, -17, -20, -23, -26, -29, -32, -35, -38),
  bright: spectrum(-9, -3, 0, -1, -2, -4, -5, -7, -9, -12, -14, -17, -20, -22, -25, -28, -31, -34, -37, -40),
  thin: spectrum(-1, 0, -6, -10, -13, -18, -23, -28, -33, -38),
};

/** What a tuning tone sounds like. */
export const USUAL_SPECTRUM: Spectrum = CHANTER_SPECTRA.normal;

/** How a note is mixed: shares of the four sounds that add up to 1, and a level against the other notes. */
export interface NoteTimbre {
  readonly mix: Readonly<Record<ChanterTone, number>>;
  readonly level: Decibels;
}

/**
 * One row for each of the nine: full and bright at the bottom, thinner towards the top.
 * *Source:* none. Synthetic, by ear.
 */
const PLAIN_TIMBRES: Readonly<Record<PlainNote, NoteTimbre>> = {
  "low-g": timbre(0, 0.2, 0.8, 0, 0.5),
  "low-a": timbre(0, 0.5, 0.5, 0, 0.5),
  b: timbre(0, 0.7, 0.3, 0, 0),
  c: timbre(0, 0.8, 0.2, 0, 0),
  d: timbre(0, 1, 0, 0, 0),
  e: timbre(0, 0.7, 0.3, 0, 0),
  f: timbre(0.1, 0.7, 0, 0.2, 0),
  "high-g": timbre(0.1, 0.5, 0, 0.4, -0.5),
  "high-a": timbre(0, 0.4, 0, 0.6, -1),
};

/** The plain note of the same letter: what a cross-fingered note is duller and softer than. */
const SAME_LETTER: Readonly<Record<CrossFingeredNote, PlainNote>> = { "c-natural": "c", "f-natural": "f", "high-g-sharp": "high-g" };

const timbres = new WeakMap<PipeSetup, Map<ChanterNote, NoteTimbre>>();

/** How a note is mixed on a setup. A cross-fingered note is its plain neighbour, faded towards the dull sound and softened as the setup says. */
export function timbreOn(setup: PipeSetup, note: ChanterNote): NoteTimbre {
  if (!isCrossFingered(note)) return PLAIN_TIMBRES[note];
  const known = timbres.get(setup) ?? new Map<ChanterNote, NoteTimbre>();
  timbres.set(setup, known);
  const made = known.get(note) ?? crossFingered(setup, note);
  known.set(note, made);
  return made;
}

function crossFingered(setup: PipeSetup, note: CrossFingeredNote): NoteTimbre {
  const own = setup.crossFingerings.find((one) => one.note === note);
  if (own === undefined) throw new RangeError(`The setup says nothing of ${note}.`);
  const { mix, level } = PLAIN_TIMBRES[SAME_LETTER[note]];
  const dull = own.dullness / MOST_DULLNESS;
  const share = (tone: ChanterTone) => mix[tone] * (1 - dull) + (tone === "dull" ? dull : 0);
  return {
    mix: { dull: share("dull"), normal: share("normal"), bright: share("bright"), thin: share("thin") },
    level: decibels(level + own.level),
  };
}

function spectrum(...levels: readonly number[]): Spectrum {
  return levels.map(decibels);
}

function timbre(dull: number, normal: number, bright: number, thin: number, level: number): NoteTimbre {
  return { mix: { dull, normal, bright, thin }, level: decibels(level) };
}
