import { cents } from "../units/cents.ts";
import { decibels } from "../units/decibels.ts";
import type { CrossFingeredNote } from "./chanter-note.ts";
import type { CrossFingering, Holes } from "./pipe-setup.ts";

/** What is known of a cross-fingering before the piper has tried it. */
export interface CrossFingeringEntry {
  readonly note: CrossFingeredNote;
  /** Fingerings in use, the first one is the default. */
  readonly holes: readonly Holes[];
  readonly holesSource: string;
  /** Where it is taken to sound until measured, cents over low A. */
  readonly cents: number;
  readonly centsSource: string;
  /** How loud it is taken to be against the plain note of its letter, dB, and how dull, 0 to 10. From memory: such notes are softer and duller. */
  readonly level: number;
  readonly dullness: number;
}

/** What holds of the cents of all three. */
export const UNMEASURED_CENTS = "Not measured: set where a just third, sixth or seventh would lie over the drones. Measure yours.";

/** The cross-fingerings that exist, in the order of `CROSS_FINGERED_NOTES`. Whether one speaks depends on chanter and reed. */
export const CROSS_FINGERING_TABLE: readonly CrossFingeringEntry[] = [
  {
    note: "c-natural",
    holes: ["X XXX XOXX", "X XXX XOXO"],
    holesSource: "From memory.",
    cents: 1200 * Math.log2(6 / 5),
    centsSource: `${UNMEASURED_CENTS} (6/5)`,
    level: -2,
    dullness: 7,
  },
  {
    note: "f-natural",
    holes: ["X XOX XXXO"],
    holesSource: "From memory.",
    cents: 1200 * Math.log2(8 / 5),
    centsSource: `${UNMEASURED_CENTS} (8/5)`,
    level: -2,
    dullness: 7,
  },
  {
    note: "high-g-sharp",
    holes: ["O XXX XXXO"],
    holesSource: "Published for Border chanters; in another tradition the same fingering is high A.",
    cents: 1200 * Math.log2(15 / 8),
    centsSource: `${UNMEASURED_CENTS} (15/8)`,
    level: -2,
    dullness: 5,
  },
];

/** What the tables know of a cross-fingered note. */
export function crossFingeringEntry(note: CrossFingeredNote): CrossFingeringEntry {
  const entry = CROSS_FINGERING_TABLE.find((row) => row.note === note);
  if (!entry) throw new RangeError(`No entry for ${note}.`);
  return entry;
}

/** The three cross-fingerings of a new setup: only those named speak. */
export function defaultCrossFingerings(speaking: readonly CrossFingeredNote[] = []): readonly CrossFingering[] {
  return CROSS_FINGERING_TABLE.map(({ note, holes, cents: over, level, dullness }) => ({
    note,
    speaks: speaking.includes(note),
    holes: holes[0] as Holes,
    cents: cents(over),
    level: decibels(level),
    dullness,
  }));
}
