import type { Key } from "../pitch/key.ts";
import { MODES, readableKey, scalePitchClasses, tonicPitchClass, transposedKey } from "../pitch/key-signature.ts";
import { semitoneOfSpelling } from "../pitch/semitone.ts";
import { pitchClassName } from "../pitch/spelling.ts";
import { CHANTER_NOTES, type ChanterNote, type CrossFingeredNote, isCrossFingered } from "./chanter-note.ts";
import type { PipeSetup } from "./pipe-setup.ts";
import { notesThatSpeak, transpositionOf } from "./sounding.ts";
import { writtenSpellingOf } from "./written-pitch.ts";

/** A key whose seven notes the chanter has, each in one octave at least. */
export interface KeyInReach {
  readonly written: Key;
  /** At concert pitch, spelled with at most six accidentals in the signature. */
  readonly concert: Key;
  /** The fewest cross-fingerings it takes, lowest first. */
  readonly needs: readonly CrossFingeredNote[];
  /** The lowest tonic on the chanter. */
  readonly tonicNote: ChanterNote;
  /** Semitones from that tonic down to the lowest note of the key on the chanter; 0 when there is none below. */
  readonly below: number;
  /** Semitones from that tonic up to the highest note of the key on the chanter. */
  readonly above: number;
  readonly crossFingeredTonic: boolean;
  readonly crossFingeredFifth: boolean;
}

/** A chanter note with its written semitone, MIDI numbering. */
interface Placed {
  readonly note: ChanterNote;
  readonly semitone: number;
}

/** Every chanter note, lowest first. */
const PLACED: readonly Placed[] = CHANTER_NOTES.map((note) => ({ note, semitone: semitoneOfSpelling(writtenSpellingOf(note)) }));

const inReach = new WeakMap<PipeSetup, readonly KeyInReach[]>();

/**
 * Every major, mixolydian, dorian and minor key whose seven notes this setup plays: fewest cross-fingerings first, then those whose
 * tonic and fifth are plain, then major, mixolydian, dorian, minor, then by height of the tonic.
 */
export function keysInReach(setup: PipeSetup): readonly KeyInReach[] {
  const found = inReach.get(setup);
  if (found) return found;
  const keys = keysOfNotes(setup, notesThatSpeak(setup));
  inReach.set(setup, keys);
  return keys;
}

/** The same with every cross-fingering speaking, in the same order: what the chanter could reach at most. */
export function keysAtMost(setup: PipeSetup): readonly KeyInReach[] {
  return keysOfNotes(setup, CHANTER_NOTES);
}

function keysOfNotes(setup: PipeSetup, notes: readonly ChanterNote[]): readonly KeyInReach[] {
  const placed = PLACED.filter(({ note }) => notes.includes(note));
  const tonics = distinctPitchClasses(placed);
  return MODES.flatMap((mode) => tonics.map((tonic) => keyOf(setup, { tonic, mode }, placed)))
    .filter((key) => key !== null)
    .sort((a, b) => costOf(a) - costOf(b));
}

/** A key as the chanter has it, or null when one of its notes is missing. */
function keyOf(setup: PipeSetup, written: Key, placed: readonly Placed[]): KeyInReach | null {
  const degrees = scalePitchClasses(written);
  const ofKey = placed.filter(({ semitone }) => degrees.includes(semitone % 12));
  if (new Set(ofKey.map(({ semitone }) => semitone % 12)).size < degrees.length) return null;
  const tonic = ofKey.find(({ semitone }) => semitone % 12 === tonicPitchClass(written)) as Placed;
  const { diatonic, chromatic } = transpositionOf(setup);
  return {
    written,
    concert: readableKey(transposedKey(written, diatonic, chromatic)),
    // No two chanter notes of one pitch class are both plain and cross-fingered, so what the key uses is what it needs.
    needs: ofKey.map(({ note }) => note).filter(isCrossFingered),
    tonicNote: tonic.note,
    below: tonic.semitone - (ofKey[0] as Placed).semitone,
    above: (ofKey.at(-1) as Placed).semitone - tonic.semitone,
    crossFingeredTonic: isCrossFingered(tonic.note),
    crossFingeredFifth: ofKey.some(({ note, semitone }) => semitone % 12 === degrees[4] && isCrossFingered(note)),
  };
}

function costOf(key: KeyInReach): number {
  return key.needs.length * 10 + (key.crossFingeredTonic ? 2 : 0) + (key.crossFingeredFifth ? 1 : 0);
}

/** Written pitch classes on the chanter by name, lowest note first. */
function distinctPitchClasses(placed: readonly Placed[]): readonly string[] {
  const names = placed.map(({ note }) => {
    const { letter, alter } = writtenSpellingOf(note);
    return pitchClassName(letter, alter);
  });
  return [...new Set(names)];
}
