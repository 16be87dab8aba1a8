import type { Letter } from "../../pitch/concert-pitch.ts";
import { LETTER_FIFTHS } from "../../pitch/letter.ts";
import type { SongMeter, SongMode } from "../../song/song.ts";
import { fifthsOfMode } from "../../song/song-key-name.ts";

/* What ABC's fields say. Source: the ABC music standard 2.1, sections 3.1 and 4.6. */

/** A length in quarters, as a fraction. */
export type Quarters = readonly [numerator: number, denominator: number];

/** A key field. */
export interface AbcKey {
  readonly fifths: number;
  readonly mode: SongMode;
  /** Accidentals the field adds to or takes from its signature. */
  readonly changed: ReadonlyMap<Letter, number>;
  /** Whether the field names a key at all; one with a clef alone does not. */
  readonly named: boolean;
}

const MODES: Readonly<Record<string, SongMode>> = {
  "": "major",
  maj: "major",
  ion: "major",
  m: "minor",
  min: "minor",
  aeo: "minor",
  mix: "mixolydian",
  dor: "dorian",
  phr: "phrygian",
  lyd: "lydian",
  loc: "locrian",
};

const NO_KEY: AbcKey = { fifths: 0, mode: "major", changed: new Map(), named: true };

/** Semitones of ABC's accidentals. */
export const ABC_ALTER: Readonly<Record<string, number>> = { "^^": 2, "^": 1, "=": 0, _: -1, __: -2 };

/**
 * A key field; null where it is none. `HP` and `Hp` are read alike, as C and F sharp with A for the tonic: `HP` prints no signature, and
 * readers in the wild take one for the other.
 */
export function abcKey(text: string): AbcKey | null {
  const plain = text.trim();
  if (/^none\b/i.test(plain)) return NO_KEY;
  if (/^H[Pp]\b/.test(plain)) return { fifths: 2, mode: "mixolydian", changed: new Map(), named: true };
  const match = /^([A-G])([#b]?)\s*(?:(maj|min|mix|dor|phr|lyd|loc|ion|aeo|m)[a-z]*(?![a-z=]))?\s*(exp\b)?/i.exec(plain);
  if (!match || !/^[A-G]/.test(plain)) {
    return plain === "" || /^(?:clef|treble|bass|alto|tenor|perc|octave|transpose|middle|stafflines|[_^=])/i.test(plain)
      ? { ...NO_KEY, changed: changedLetters(plain), named: /^[_^=]/.test(plain) }
      : null;
  }
  const [whole, letter, sign, modeWord, explicit] = match as unknown as [string, Letter, string, string | undefined, string | undefined];
  // `M` for major and `m` for minor differ by their size alone.
  const mode = modeWord === "M" ? "major" : (MODES[(modeWord ?? "").toLowerCase()] ?? "major");
  const tonic = LETTER_FIFTHS[letter] + (sign === "#" ? 7 : sign === "b" ? -7 : 0);
  const fifths = explicit ? 0 : fifthsOfMode(tonic, mode);
  return { fifths, mode, changed: changedLetters(plain.slice(whole.length)), named: true };
}

function changedLetters(text: string): ReadonlyMap<Letter, number> {
  const changed = new Map<Letter, number>();
  for (const [, sign, letter] of text.matchAll(/(?:^|\s)(\^\^|\^|__|_|=)([A-Ga-g])(?![A-Za-z])/g)) {
    changed.set((letter as string).toUpperCase() as Letter, ABC_ALTER[sign as string] as number);
  }
  return changed;
}

/** A meter field: null for free meter, undefined where it is none. */
export function abcMeter(text: string): SongMeter | null | undefined {
  const plain = text.trim();
  if (plain === "" || /^none\b/i.test(plain)) return null;
  if (/^C\|/.test(plain)) return { beats: 2, unit: 2 };
  if (/^C(?![a-z])/.test(plain)) return { beats: 4, unit: 4 };
  const match = /^\(?\s*(\d+(?:\s*\+\s*\d+)*)\s*\)?\s*\/\s*(\d+)/.exec(plain);
  if (!match) return undefined;
  const beats = (match[1] as string).split("+").reduce((sum, piece) => sum + Number(piece), 0);
  const unit = Number(match[2]);
  return beats >= 1 && beats <= 128 && unit >= 1 && unit <= 128 && Number.isInteger(Math.log2(unit)) ? { beats, unit } : undefined;
}

/** A unit note length field in quarters; null where it is none. */
export function abcUnit(text: string): Quarters | null {
  const match = /^(\d+)(?:\/(\d+))?/.exec(text.trim());
  const [numerator, denominator] = [Number(match?.[1] ?? 0), Number(match?.[2] ?? 1)];
  return numerator > 0 && denominator > 0 && numerator <= 1024 && denominator <= 1024 ? [4 * numerator, denominator] : null;
}

/** The unit note length where no field gives one: a sixteenth if the meter is less than three quarters, else an eighth. */
export function usualUnit(meter: SongMeter | null): Quarters {
  return meter && meter.beats / meter.unit < 0.75 ? [1, 4] : [1, 2];
}

/** Quarters in a minute; null where the field has no figure (words alone). A bare number counts unit note lengths. */
export function abcTempo(text: string, unit: Quarters): number | null {
  const plain = text.replace(/"[^"]*"/g, " ").trim();
  const counted = /^([\d/\s]+|C\d*)=\s*(\d+(?:\.\d+)?)/.exec(plain);
  const bare = /^(\d+(?:\.\d+)?)$/.exec(plain);
  const ofUnit = unit[0] / unit[1];
  if (!counted && !bare) return null;
  const beats = counted
    ? (counted[1] as string)
        .trim()
        .split(/\s+/)
        .reduce((sum, piece) => sum + (piece.startsWith("C") ? ofUnit * Number(piece.slice(1) || 1) : quartersOfFraction(piece)), 0)
    : ofUnit;
  const minute = Number(counted?.[2] ?? bare?.[1]);
  const quarters = beats * minute;
  return quarters > 0 && quarters < 10_000 ? quarters : null;
}

function quartersOfFraction(text: string): number {
  const [numerator = "0", denominator = "1"] = text.split("/");
  return (4 * Number(numerator)) / Number(denominator || 1);
}

/** What a voice or key field says about how its notes sound: semitones to add to what is written. */
export function abcShift(text: string): number {
  const octave = Number(/\boctave=\s*([+-]?\d)\b/.exec(text)?.[1] ?? 0);
  const transpose = Number(/\btranspose=\s*([+-]?\d{1,2})\b/.exec(text)?.[1] ?? 0);
  const clef = /\b(?:clef=)?\s*"?(?:treble|bass|alto|tenor|[GFC])\d?([+-]8)/.exec(text)?.[1];
  return 12 * octave + transpose + (clef === "+8" ? 12 : clef === "-8" ? -12 : 0);
}

/** A voice field's parts: its id, and its name where it gives one. */
export function abcVoice(text: string): { readonly id: string; readonly name: string | null } {
  const id = /^\s*(\S+)/.exec(text)?.[1] ?? "1";
  const name = /\b(?:name|nm)\s*=\s*(?:"([^"]*)"|(\S+))/.exec(text);
  return { id, name: name ? (name[1] ?? name[2] ?? "").replace(/\\n/g, " ") : null };
}
