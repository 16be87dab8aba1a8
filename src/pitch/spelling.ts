import { ReadError } from "../units/read-error.ts";
import type { ConcertPitch, Letter, Spelling } from "./concert-pitch.ts";

const PITCH = /^([A-G])(##|#|bb|b|)(-1|[0-9])$/;
const LOWEST_OCTAVE = -1;
const HIGHEST_OCTAVE = 9;
const ALTER_TEXT = ["bb", "b", "", "#", "##"] as const;
const ALTER_WORDS = [" double flat", " flat", "", " sharp", " double sharp"] as const;

/** Every pitch met so far, taken apart; some hundreds at most, since the octaves are bounded. */
const known = new Map<string, Spelling>();

/**
 * Reads a concert pitch: capital letter, `#`, `##`, `b`, `bb` or nothing, octave from -1 to 9.
 * @throws ReadError when the text is anything else; its `where` is the text, so that a reader of files can put its own path there.
 */
export function concertPitch(text: string): ConcertPitch {
  if (!PITCH.test(text)) {
    throw new ReadError({ where: "pitch", expected: "a letter, an accidental and an octave, such as Bb4", found: JSON.stringify(text) });
  }
  return text as ConcertPitch;
}

/** Whether a text is a concert pitch as `concertPitch` reads it. */
export function isConcertPitch(text: unknown): text is ConcertPitch {
  return typeof text === "string" && PITCH.test(text);
}

/** A pitch taken apart. Equal pitches give the identical object. */
export function spellingOf(pitch: ConcertPitch): Spelling {
  const found = known.get(pitch);
  if (found) return found;
  const match = PITCH.exec(pitch);
  if (!match) throw new RangeError(`Not a concert pitch: ${pitch}`);
  const [, letter, accidental, octave] = match as unknown as [string, Letter, (typeof ALTER_TEXT)[number], string];
  const spelling: Spelling = { letter, alter: ALTER_TEXT.indexOf(accidental) - 2, octave: Number(octave) };
  known.set(pitch, spelling);
  return spelling;
}

/**
 * Puts a pitch together.
 * @throws RangeError when it needs more than a double accidental, or an octave outside -1 to 9.
 */
export function pitchFromSpelling({ letter, alter, octave }: Spelling): ConcertPitch {
  if (!(octave >= LOWEST_OCTAVE && octave <= HIGHEST_OCTAVE)) throw new RangeError(`No such octave: ${octave}`);
  return `${pitchClassName(letter, alter)}${octave}` as ConcertPitch;
}

/**
 * A letter with its accidentals and no octave: `Bb`, `C#`, as a key's tonic or a chord's root is written.
 * @throws RangeError when it needs more than a double accidental.
 */
export function pitchClassName(letter: Letter, alter: number): string {
  const accidental = ALTER_TEXT[alter + 2];
  if (accidental === undefined) throw new RangeError(`No such accidental on ${letter}: ${alter}`);
  return letter + accidental;
}

/** A pitch for the eye: `B♭4`. */
export function shownPitch(pitch: ConcertPitch): string {
  return withSigns(pitch);
}

/** A pitch for the eye without its octave: `B♭`. */
export function pitchClassShown(pitch: ConcertPitch): string {
  const { letter, alter } = spellingOf(pitch);
  return withSigns(pitchClassName(letter, alter));
}

/** A pitch for the ear of a screen reader: `B flat 4`. */
export function spokenPitch(pitch: ConcertPitch): string {
  const { letter, alter, octave } = spellingOf(pitch);
  return `${letter}${ALTER_WORDS[alter + 2]} ${octave}`;
}

/** Puts printed sharps and flats for the `#` and `b` of a name; leaves the letter B alone. */
export function withSigns(name: string): string {
  return name.replace(/#/g, "♯").replace(/b/g, "♭");
}

/** A pitch class such as `Bb` in words: `B flat`. */
export function spokenPitchClass(name: string): string {
  return name.slice(0, 1) + ALTER_WORDS[alterOf(name.slice(1)) + 2];
}

/**
 * Semitones that an accidental stands for: `b` is -1.
 * @throws RangeError when it is none.
 */
export function alterOf(accidental: string): number {
  const index = (ALTER_TEXT as readonly string[]).indexOf(accidental);
  if (index < 0) throw new RangeError(`Not an accidental: ${accidental}`);
  return index - 2;
}
