import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { concertPitch } from "../pitch/spelling.ts";
import { type Transposition, transposed } from "../pitch/transpose.ts";
import type { Clef, Player, PlayerId } from "./player.ts";

const STANDARD = "Transposition: standard, any orchestration or brass-band handbook. Range: from memory.";
const WHISTLE = "Reads as if it were in D, two octaves from its lowest note: common practice.";

/** Intervals from the sounding pitch up to the written one, by the name of the instrument's pitch. */
const CONCERT: Transposition = { diatonic: 0, chromatic: 0 };
const B_FLAT: Transposition = { diatonic: 1, chromatic: 2 };
const B_FLAT_NINTH: Transposition = { diatonic: 8, chromatic: 14 };
const B_FLAT_TWO_OCTAVES: Transposition = { diatonic: 15, chromatic: 26 };
const E_FLAT_SIXTH: Transposition = { diatonic: 5, chromatic: 9 };
const E_FLAT_OCTAVE_SIXTH: Transposition = { diatonic: 12, chromatic: 21 };
const E_FLAT_UNDER: Transposition = { diatonic: -2, chromatic: -3 };
const F_FIFTH: Transposition = { diatonic: 4, chromatic: 7 };
const OCTAVE: Transposition = { diatonic: 7, chromatic: 12 };

/** Everyone a band may bring, strings first, then wind, brass, and those who read an octave away. */
export const PLAYERS: readonly Player[] = [
  player("fiddle", "Fiddle", "treble", CONCERT, "G3", "B6"),
  player("mandolin", "Mandolin", "treble", CONCERT, "G3", "A5"),
  player("viola", "Viola", "alto", CONCERT, "C3", "E6"),
  player("cello", "Cello", "bass", CONCERT, "C2", "A5"),
  player("flute", "Flute", "treble", CONCERT, "C4", "C7"),
  player("oboe", "Oboe", "treble", CONCERT, "Bb3", "F6"),
  player("accordion", "Accordion", "treble", CONCERT, "F3", "A6"),
  player("piano", "Piano", "treble", CONCERT, "A0", "C8"),
  player("voice", "Voice", "treble", CONCERT, "F3", "C6"),
  whistle("d", "D", { diatonic: -7, chromatic: -12 }, "D5", "D7"),
  whistle("eb", "E♭", { diatonic: -8, chromatic: -13 }, "Eb5", "Eb7"),
  whistle("e", "E", { diatonic: -8, chromatic: -14 }, "E5", "E7"),
  whistle("c", "C", { diatonic: -6, chromatic: -10 }, "C5", "C7"),
  whistle("bb", "B♭", { diatonic: -5, chromatic: -8 }, "Bb4", "Bb6"),
  lowWhistle("d", "D", CONCERT, "D4", "D6"),
  lowWhistle("eb", "E♭", { diatonic: -1, chromatic: -1 }, "Eb4", "Eb6"),
  lowWhistle("e", "E", { diatonic: -1, chromatic: -2 }, "E4", "E6"),
  player("clarinet-bb", "Clarinet in B♭", "treble", B_FLAT, "D3", "G6"),
  player("soprano-sax", "Soprano saxophone in B♭", "treble", B_FLAT, "Ab3", "Eb6"),
  player("alto-sax", "Alto saxophone in E♭", "treble", E_FLAT_SIXTH, "Db3", "Ab5"),
  player("tenor-sax", "Tenor saxophone in B♭", "treble", B_FLAT_NINTH, "Ab2", "E5"),
  player("baritone-sax", "Baritone saxophone in E♭", "treble", E_FLAT_OCTAVE_SIXTH, "C2", "A4"),
  player("soprano-cornet-eb", "Soprano cornet in E♭", "treble", E_FLAT_UNDER, "G3", "C6"),
  player("trumpet-bb", "Trumpet in B♭", "treble", B_FLAT, "E3", "Bb5"),
  player("cornet-bb", "Cornet in B♭", "treble", B_FLAT, "E3", "Bb5"),
  player("flugelhorn-bb", "Flugelhorn in B♭", "treble", B_FLAT, "E3", "Bb5"),
  player("tenor-horn-eb", "Tenor horn in E♭", "treble", E_FLAT_SIXTH, "A2", "Eb5"),
  player("horn-f", "Horn in F", "treble", F_FIFTH, "F2", "F5"),
  player("baritone-bb", "Baritone in B♭", "treble", B_FLAT_NINTH, "E2", "Bb4"),
  player("euphonium-bb", "Euphonium in B♭", "treble", B_FLAT_NINTH, "E2", "Bb4"),
  player("euphonium", "Euphonium", "bass", CONCERT, "E2", "Bb4"),
  player("trombone-bb", "Trombone in B♭", "treble", B_FLAT_NINTH, "E2", "Bb4"),
  player("trombone", "Trombone", "bass", CONCERT, "E2", "Bb4"),
  player("bass-eb", "E♭ bass", "treble", E_FLAT_OCTAVE_SIXTH, "A1", "Eb4"),
  player("bass-bb", "B♭ bass", "treble", B_FLAT_TWO_OCTAVES, "E1", "Bb3"),
  player("tuba", "Tuba", "bass", CONCERT, "F1", "F4"),
  player("guitar", "Guitar", "treble", OCTAVE, "E2", "B5"),
  player("bass-guitar", "Bass guitar", "bass", OCTAVE, "E1", "G4"),
  player("double-bass", "Double bass", "bass", OCTAVE, "E1", "C4"),
];

const byId: ReadonlyMap<PlayerId, Player> = new Map(PLAYERS.map((entry) => [entry.id, entry]));

/** Whether the catalogue has a player of this name. */
export function isPlayerId(id: string): boolean {
  return byId.has(id);
}

/**
 * A player of the catalogue.
 * @throws RangeError when there is none of that name; what comes from a file is asked with `isPlayerId` first.
 */
export function playerOf(id: PlayerId): Player {
  const found = byId.get(id);
  if (!found) throw new RangeError(`Nobody in the catalogue is called ${id}.`);
  return found;
}

/** A concert pitch as a player's part writes it. */
export function writtenForPlayer(pitch: ConcertPitch, { transposition }: Player): ConcertPitch {
  return transposed(pitch, transposition.diatonic, transposition.chromatic);
}

function player(
  id: PlayerId,
  name: string,
  clef: Clef,
  transposition: Transposition,
  lowest: string,
  highest: string,
  source = STANDARD,
): Player {
  const range = { lowest: concertPitch(lowest), highest: concertPitch(highest) };
  return { id, name, clef, octaveClef: 0, transposition, range, source };
}

function whistle(id: string, name: string, transposition: Transposition, lowest: string, highest: string): Player {
  return player(`whistle-${id}`, `Whistle in ${name}`, "treble", transposition, lowest, highest, WHISTLE);
}

function lowWhistle(id: string, name: string, transposition: Transposition, lowest: string, highest: string): Player {
  return player(`low-whistle-${id}`, `Low whistle in ${name}`, "treble", transposition, lowest, highest, WHISTLE);
}
