import { ReadError } from "../units/read-error.ts";
import type { Letter } from "./concert-pitch.ts";
import type { Key, Mode } from "./key.ts";
import { LETTER_FIFTHS, LETTER_SEMITONES, positiveModulo } from "./letter.ts";
import { alterOf, pitchClassName, spokenPitchClass, withSigns } from "./spelling.ts";
import { transposedSpelling } from "./transpose.ts";

/** How far each mode's signature lies from the major's on the same tonic, in fifths. */
const MODE_FIFTHS: Readonly<Record<Mode, number>> = { major: 0, mixolydian: -1, dorian: -2, minor: -3 };

/** The modes, major first. */
export const MODES: readonly Mode[] = ["major", "mixolydian", "dorian", "minor"];

/** Semitones of the seven degrees above the tonic, by mode. */
const MODE_STEPS: Readonly<Record<Mode, readonly number[]>> = {
  major: [0, 2, 4, 5, 7, 9, 11],
  mixolydian: [0, 2, 4, 5, 7, 9, 10],
  dorian: [0, 2, 3, 5, 7, 9, 10],
  minor: [0, 2, 3, 5, 7, 8, 10],
};

/** Most accidentals a player is asked to read in a signature. */
const MOST_ACCIDENTALS = 6;

/** Letters from F upwards in fifths, the order in which sharps enter a signature; flats enter from the other end. */
const IN_FIFTHS: readonly Letter[] = ["F", "C", "G", "D", "A", "E", "B"];

/** Sharps (positive) or flats (negative) of the signature; the signature of a mode is the one that leaves no accidentals. */
export function fifthsOf(key: Key): number {
  const { letter, alter } = tonicOf(key);
  return LETTER_FIFTHS[letter] + 7 * alter + MODE_FIFTHS[key.mode];
}

/** What the signature does to a letter: 1 sharp, -1 flat, 0 nothing (±2 in keys that nobody should be shown). */
export function alterInKey(key: Key, letter: Letter): number {
  return Math.floor((fifthsOf(key) - IN_FIFTHS.indexOf(letter) + 6) / 7);
}

/** The same sounding key with at most six accidentals in the signature. Six sharps and six flats are both left alone. */
export function readableKey(key: Key): Key {
  const fifths = fifthsOf(key);
  if (Math.abs(fifths) <= MOST_ACCIDENTALS) return key;
  const respelled = fifths > 0 ? fifths - 12 : fifths + 12;
  return readableKey({ tonic: pitchClassAtFifths(respelled - MODE_FIFTHS[key.mode]), mode: key.mode });
}

/** A key as files and the command line name it: `C# minor`, `Bb mixolydian`. */
export function keyName(key: Key): string {
  return `${key.tonic} ${key.mode}`;
}

/** A key for the eye: `C♯ minor`. */
export function shownKey(key: Key): string {
  return `${withSigns(key.tonic)} ${key.mode}`;
}

/** A key for the ear of a screen reader: `C sharp minor`. */
export function spokenKey(key: Key): string {
  return `${spokenPitchClass(key.tonic)} ${key.mode}`;
}

/**
 * Reads a key as `keyName` writes it; `♯` and `♭` are taken too.
 * @throws ReadError when it is no key.
 */
export function keyFromName(text: string): Key {
  const match = /^([A-G](?:#|b)?) (major|mixolydian|dorian|minor)$/.exec(text.replace("♯", "#").replace("♭", "b"));
  if (!match) throw new ReadError({ where: "key", expected: "a tonic and a mode, such as C# minor", found: JSON.stringify(text) });
  return { tonic: match[1] as string, mode: match[2] as Mode };
}

/** A key moved by staff steps and semitones. Spelled as the interval says, however many accidentals that gives; see `readableKey`. */
export function transposedKey(key: Key, diatonic: number, semitones: number): Key {
  if (diatonic === 0 && semitones === 0) return key;
  const { letter, alter } = transposedSpelling({ ...tonicOf(key), octave: 4 }, diatonic, semitones);
  return { tonic: pitchClassName(letter, alter), mode: key.mode };
}

/** Semitone class of the tonic, 0 to 11 from C. */
export function tonicPitchClass(key: Key): number {
  const { letter, alter } = tonicOf(key);
  return positiveModulo(LETTER_SEMITONES[letter] + alter, 12);
}

/** Semitone classes, 0 to 11 from C, of the seven degrees, tonic first. */
export function scalePitchClasses(key: Key): readonly number[] {
  const tonic = tonicPitchClass(key);
  return MODE_STEPS[key.mode].map((step) => (tonic + step) % 12);
}

/** The tonic taken apart. */
export function tonicOf(key: Key): { readonly letter: Letter; readonly alter: number } {
  return { letter: key.tonic.slice(0, 1) as Letter, alter: alterOf(key.tonic.slice(1)) };
}

/** The pitch class at a place on the line of fifths: 0 is C, 1 G, -2 Bb, 7 C#. */
export function pitchClassAtFifths(place: number): string {
  const letter = IN_FIFTHS[positiveModulo(place + 1, 7)] as Letter;
  return pitchClassName(letter, Math.floor((place + 1) / 7));
}
