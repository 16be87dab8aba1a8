import type { Letter } from "./concert-pitch.ts";
import { LETTER_SEMITONES, positiveModulo } from "./letter.ts";
import { alterOf, pitchClassName } from "./spelling.ts";
import { transposedSpelling } from "./transpose.ts";

/** A chord symbol taken apart. */
export interface ReadChord {
  /** Root as a spelled pitch class: `F#`. */
  readonly root: string;
  /** What stands between root and bass: `m7`, `sus4`, or nothing. */
  readonly quality: string;
  /** The bass where the symbol names one after a stroke, else null. */
  readonly bass: string | null;
  /** Semitones of the chord's tones above the root, 0 first, ascending, each within the octave; a foreign bass is not among them. */
  readonly tones: readonly number[];
}

/** Symbols that say that no chord sounds. */
const NO_CHORD = /^N\.?C\.?$/i;
const SYMBOL = /^([A-G](?:#|b)?)(.*?)(?:\/([A-G](?:#|b)?))?$/;
const cache = new Map<string, ReadChord | null>();
const CACHE_LIMIT = 2000;

/**
 * The semitone classes (0 to 11 from C) of a chord symbol: root first, then up the chord, a bass that is no chord tone last.
 * Empty for a symbol that says no chord sounds (`N.C.`); null for a text that is no chord symbol.
 */
export function chordPitchClasses(symbol: string): readonly number[] | null {
  if (NO_CHORD.test(symbol.trim())) return [];
  const chord = readChord(symbol);
  if (!chord) return null;
  const root = pitchClassOf(chord.root);
  const classes = chord.tones.map((tone) => (root + tone) % 12);
  const bass = chord.bass === null ? null : pitchClassOf(chord.bass);
  return bass === null || classes.includes(bass) ? classes : [...classes, bass];
}

/** Takes a chord symbol apart; null for a text that is none. `♯`, `♭` and the usual signs for major, half-diminished and diminished are read. */
export function readChord(symbol: string): ReadChord | null {
  const found = cache.get(symbol);
  if (found !== undefined) return found;
  const read = readSymbol(symbol);
  if (cache.size >= CACHE_LIMIT) cache.clear();
  cache.set(symbol, read);
  return read;
}

/** A chord symbol moved by staff steps and semitones, its quality as it was written. A text that is no chord comes back as it is. */
export function transposedChord(symbol: string, diatonic: number, semitones: number): string {
  const chord = readChord(symbol);
  if (!chord) return symbol;
  const moved = (name: string) => transposedClass(name, diatonic, semitones);
  return moved(chord.root) + chord.quality + (chord.bass === null ? "" : `/${moved(chord.bass)}`);
}

function readSymbol(symbol: string): ReadChord | null {
  const match = SYMBOL.exec(symbol.trim().replace(/♯/g, "#").replace(/♭/g, "b"));
  if (!match) return null;
  const [, root, quality, bass] = match as unknown as [string, string, string, string | undefined];
  const tones = tonesOf(quality);
  return tones && { root, quality, bass: bass ?? null, tones };
}

/** What a quality has said so far; numbers are semitones above the root. */
interface Building {
  third: number | null;
  fifth: number | null;
  seventh: 9 | 10 | 11;
  readonly added: Set<number>;
  readonly removed: Set<number>;
}

/** Semitones of a numbered degree of the major scale; the flat seventh is the usual one. */
const DEGREES: Readonly<Record<string, number>> = { "2": 2, "4": 5, "5": 7, "6": 9, "7": 10, "9": 2, "11": 5, "13": 9 };

/** What an extension stacks on the triad besides the seventh. The eleventh is left out of a thirteenth, as it is in use. */
const STACKS: Readonly<Record<string, readonly string[]>> = { "7": [], "9": ["9"], "11": ["9", "11"], "13": ["9", "13"] };

/** One thing a quality can say, tried in this order at each place; the first that fits is taken. */
const WORDS: readonly (readonly [RegExp, (chord: Building, match: RegExpExecArray) => void])[] = [
  [/^[(),\s]+/, () => {}],
  [
    /^(?:maj|Maj|ma(?!d)|M|Δ|\^)(7|9|11|13)?/,
    (chord, [word, extension]) => {
      if (extension === undefined && !/[Δ^]/.test(word)) return;
      chord.seventh = 11;
      stack(chord, extension ?? "7");
    },
  ],
  [
    /^(?:dim|°|o)(7?)/,
    (chord, [, seventh]) => {
      chord.third = 3;
      chord.fifth = 6;
      chord.seventh = 9;
      if (seventh) stack(chord, "7");
    },
  ],
  [
    /^ø7?/,
    (chord) => {
      chord.third = 3;
      chord.fifth = 6;
      stack(chord, "7");
    },
  ],
  [
    /^alt/,
    (chord) => {
      chord.fifth = null;
      stack(chord, "7");
      for (const tone of [1, 3, 6, 8]) chord.added.add(tone);
    },
  ],
  [/^([#b+-])(5|6|9|11|13)/, (chord, [, sign, degree]) => alter(chord, sign as string, degree as string)],
  [
    /^(?:min|mi|m|-)/,
    (chord) => {
      chord.third = 3;
    },
  ],
  [
    /^(?:aug|\+)/,
    (chord) => {
      chord.fifth = 8;
    },
  ],
  [
    /^sus(24|42|2|4|)/,
    (chord, [, degrees]) => {
      chord.third = null;
      for (const degree of degrees || "4") chord.added.add(DEGREES[degree] as number);
    },
  ],
  [/^add([#b]?)(2|4|6|9|11|13)/, (chord, [, sign, degree]) => void chord.added.add(altered(sign as string, degree as string))],
  [/^(?:no|omit)(3|5)/, (chord, [, degree]) => void chord.removed.add(degree === "3" ? 4 : 7)],
  [
    /^6\/?9/,
    (chord) => {
      chord.added.add(9).add(2);
    },
  ],
  [/^6/, (chord) => void chord.added.add(9)],
  [
    /^(7|9|11|13)/,
    (chord, [, extension]) => {
      stack(chord, extension as string);
      // The eleventh grates on a major third, so players leave the third out.
      if (extension === "11" && chord.third === 4) chord.third = null;
    },
  ],
  [
    /^5/,
    (chord) => {
      chord.third = null;
    },
  ],
];

/** The tones a quality stands for, or null where it cannot be read to its end. */
function tonesOf(quality: string): readonly number[] | null {
  const chord: Building = { third: 4, fifth: 7, seventh: 10, added: new Set(), removed: new Set() };
  for (let rest = quality; rest !== ""; ) {
    const length = readWord(chord, rest);
    if (length === 0) return null;
    rest = rest.slice(length);
  }
  const tones = new Set([0, ...chord.added]);
  if (chord.third !== null && !chord.removed.has(4)) tones.add(chord.third);
  if (chord.fifth !== null && !chord.removed.has(7)) tones.add(chord.fifth);
  return [...tones].sort((a, b) => a - b);
}

/** Reads one word of a quality into the chord; its length, 0 where nothing fits. */
function readWord(chord: Building, text: string): number {
  for (const [pattern, take] of WORDS) {
    const match = pattern.exec(text);
    if (match) {
      take(chord, match);
      return match[0].length;
    }
  }
  return 0;
}

function stack(chord: Building, extension: string): void {
  chord.added.add(chord.seventh);
  for (const degree of STACKS[extension] ?? []) chord.added.add(DEGREES[degree] as number);
}

/** A raised or lowered fifth replaces the fifth; every other altered degree replaces the plain one if it was stacked, or is added. */
function alter(chord: Building, sign: string, degree: string): void {
  const tone = altered(sign, degree);
  if (degree === "5") {
    chord.fifth = null;
  } else {
    chord.added.delete(DEGREES[degree] as number);
  }
  chord.added.add(tone);
}

function altered(sign: string, degree: string): number {
  const by = sign === "#" || sign === "+" ? 1 : sign === "" ? 0 : -1;
  return positiveModulo((DEGREES[degree] as number) + by, 12);
}

function pitchClassOf(name: string): number {
  return positiveModulo(LETTER_SEMITONES[name.slice(0, 1) as Letter] + alterOf(name.slice(1)), 12);
}

/** A root or bass moved; never shown with a double accidental. */
function transposedClass(name: string, diatonic: number, semitones: number): string {
  const from = { letter: name.slice(0, 1) as Letter, alter: alterOf(name.slice(1)), octave: 4 };
  const to = transposedSpelling(from, diatonic, semitones);
  if (Math.abs(to.alter) < 2) return pitchClassName(to.letter, to.alter);
  const readable = transposedSpelling(from, diatonic + Math.sign(to.alter), semitones);
  return pitchClassName(readable.letter, readable.alter);
}
