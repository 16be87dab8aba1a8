import { chordPitchClasses, readChord } from "../pitch/chord.ts";
import { positiveModulo } from "../pitch/letter.ts";
import { semitoneOf } from "../pitch/semitone.ts";
import type { PipeSetup } from "./pipe-setup.ts";

/** What a drone on low A is to a chord. */
export interface DronePlace {
  /** Its degree over the chord's root: `root`, `fifth`, `flat ninth`. */
  readonly degree: string;
  /** Whether it lies a semitone from a tone of the chord, and is none itself. */
  readonly rubs: boolean;
}

/** Degrees by semitones over the root; where the chord has a tone of that size it is called as the chord has it. */
const DEGREES = [
  "root",
  "flat ninth",
  "ninth",
  "third",
  "third",
  "fourth",
  "flat fifth",
  "fifth",
  "sixth",
  "sixth",
  "seventh",
  "seventh",
] as const;

/** The place of the drones' low A in a chord at concert pitch; null for a text that is no chord, or says that none sounds. */
export function droneInChord(setup: PipeSetup, symbol: string): DronePlace | null {
  const chord = readChord(symbol);
  const classes = chordPitchClasses(symbol);
  if (classes === null || classes.length === 0 || chord === null) return null;
  const drone = positiveModulo(semitoneOf(setup.lowAIs), 12);
  const over = positiveModulo(drone - (classes[0] as number), 12);
  const isTone = classes.includes(drone);
  const rubs = !isTone && classes.some((tone) => [1, 11].includes(positiveModulo(drone - tone, 12)));
  return { degree: DEGREES[over] as string, rubs };
}
