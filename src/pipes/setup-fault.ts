import { equalHertz, USUAL_BAND_A } from "../pitch/reference-pitch.ts";
import { isConcertPitch } from "../pitch/spelling.ts";
import { centsBetween } from "../units/cents.ts";
import { CROSS_FINGERED_NOTES, NINE_NOTES } from "./chanter-note.ts";
import { isHoles } from "./fingerings.ts";
import { FARTHEST_NAME, isLowA, LOW_A_REACH } from "./low-a.ts";
import { noteName } from "./note-names.ts";
import type { ChanterScale, PipeSetup } from "./pipe-setup.ts";

/** What is wrong in a setup whose fields have the right types. */
export interface SetupFault {
  /** A path into the setup: `scale.cents.low-a`. */
  readonly where: string;
  readonly expected: string;
  readonly found: string;
}

/** A drone sounds at or under low A, and no more than five octaves under it. */
const LEAST_DRONE_RATIO = 1 / 32;

/** Measured scales and cross-fingerings lie within this of low A, cents: the compass and a whole tone to either side. */
const NOTE_REACH = { lowest: -400, highest: 1400 } as const;

/** How much softer or louder than its plain neighbour a cross-fingered note may be, dB. */
export const LEVEL_REACH = { lowest: -24, highest: 6 } as const;

/** The dullest there is. */
export const MOST_DULLNESS = 10;

/** The first thing that makes a setup impossible, or null. For reading files and for what a piper types; types are checked before. */
export function setupFault(setup: PipeSetup): SetupFault | null {
  return lowAFault(setup) ?? scaleFault(setup.scale) ?? fingeringFault(setup) ?? crossFingeringFault(setup) ?? droneFault(setup);
}

function lowAFault({ lowA, lowAIs }: PipeSetup): SetupFault | null {
  if (!isLowA(lowA)) return { where: "lowA", expected: `${LOW_A_REACH.lowest} to ${LOW_A_REACH.highest} hertz`, found: String(lowA) };
  if (!isConcertPitch(lowAIs)) return { where: "lowAIs", expected: "a concert pitch such as Bb4", found: JSON.stringify(lowAIs) };
  if (Math.abs(centsBetween(equalHertz(lowAIs, USUAL_BAND_A), lowA)) > FARTHEST_NAME) {
    return { where: "lowAIs", expected: `a pitch within a whole tone of ${lowA} Hz`, found: lowAIs };
  }
  return null;
}

function scaleFault(scale: ChanterScale): SetupFault | null {
  if (scale.kind === "published") return null;
  if (scale.cents["low-a"] !== 0)
    return { where: "scale.cents.low-a", expected: "0, since all is measured from it", found: String(scale.cents["low-a"]) };
  for (const [index, note] of NINE_NOTES.entries()) {
    const own = scale.cents[note];
    const where = `scale.cents.${note}`;
    if (!isInReach(own)) return { where, expected: reachWords(), found: String(own) };
    const under = NINE_NOTES[index - 1];
    if (under && own <= scale.cents[under])
      return { where, expected: `more than ${scale.cents[under]}, the note below`, found: String(own) };
  }
  return null;
}

/** Two of the nine fingered alike would be one note. */
function fingeringFault({ fingerings }: PipeSetup): SetupFault | null {
  for (const [index, note] of NINE_NOTES.entries()) {
    const where = `fingerings.${note}`;
    const holes = fingerings[note];
    if (!isHoles(holes)) return { where, expected: "eight holes such as X XXX XXXO", found: JSON.stringify(holes) };
    const alike = NINE_NOTES.slice(0, index).find((other) => fingerings[other] === holes);
    if (alike !== undefined) return { where, expected: `holes that ${noteName(alike)} does not have`, found: holes };
  }
  return null;
}

function crossFingeringFault({ crossFingerings }: PipeSetup): SetupFault | null {
  if (crossFingerings.length !== CROSS_FINGERED_NOTES.length) {
    return { where: "crossFingerings", expected: `${CROSS_FINGERED_NOTES.length} entries`, found: String(crossFingerings.length) };
  }
  for (const [index, { note, holes, cents, level, dullness }] of crossFingerings.entries()) {
    const where = `crossFingerings[${index}]`;
    if (note !== CROSS_FINGERED_NOTES[index]) return { where: `${where}.note`, expected: String(CROSS_FINGERED_NOTES[index]), found: note };
    if (!isHoles(holes)) return { where: `${where}.holes`, expected: "eight holes such as X XXX XXXO", found: JSON.stringify(holes) };
    if (!isInReach(cents)) return { where: `${where}.cents`, expected: reachWords(), found: String(cents) };
    if (!(level >= LEVEL_REACH.lowest && level <= LEVEL_REACH.highest))
      return { where: `${where}.level`, expected: `${LEVEL_REACH.lowest} to ${LEVEL_REACH.highest} dB`, found: String(level) };
    if (!(dullness >= 0 && dullness <= MOST_DULLNESS))
      return { where: `${where}.dullness`, expected: `0 to ${MOST_DULLNESS}`, found: String(dullness) };
  }
  return null;
}

function droneFault({ drones }: PipeSetup): SetupFault | null {
  for (const [index, { ratio }] of drones.entries()) {
    const value = ratio[0] / ratio[1];
    const whole = ratio.every((part) => Number.isInteger(part) && part > 0);
    if (!whole || value > 1 || value < LEAST_DRONE_RATIO) {
      return {
        where: `drones[${index}].ratio`,
        expected: "two whole numbers, at or under low A and at most five octaves under",
        found: ratio.join("/"),
      };
    }
  }
  return null;
}

const isInReach = (value: number): boolean => value >= NOTE_REACH.lowest && value <= NOTE_REACH.highest;
const reachWords = (): string => `${NOTE_REACH.lowest} to ${NOTE_REACH.highest} cents over low A`;
