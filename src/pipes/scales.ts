import { type Cents, cents, centsOfRatio } from "../units/cents.ts";
import { NINE_NOTES, type PlainNote } from "./chanter-note.ts";
import type { ChanterScale, PublishedScale } from "./pipe-setup.ts";

/** One row of the table of scales. */
export interface ScaleEntry {
  /** As it stands in a sentence: `septimal`. */
  readonly name: string;
  readonly source: string;
  /** Cents over low A for each of the nine, lowest note first. */
  readonly cents: readonly Cents[];
}

type Ratio = readonly [numerator: number, denominator: number];

/** Low A, B, C, E, F and high A, on which the published scales agree: a just major pentatonic over the drones. */
const AGREED = { "low-a": [1, 1], b: [9, 8], c: [5, 4], e: [3, 2], f: [5, 3], "high-a": [2, 1] } as const satisfies Partial<
  Record<PlainNote, Ratio>
>;

/** Scales of the chanter, as ratios to low A (the equal one: as cents), lowest note first. */
export const SCALES: Readonly<Record<PublishedScale, ScaleEntry>> = {
  septimal: {
    name: "septimal",
    source: "Published: E. Macpherson, “The Pitch and Scale of the Great Highland Bagpipe”, NZ Pipeband, winter 1998 (“harmonic”).",
    cents: scale({ ...AGREED, "low-g": [7, 8], d: [4, 3], "high-g": [7, 4] }),
  },
  "1954": {
    name: "1954",
    source:
      "Published: J. Lenihan and S. MacNeill, “An Acoustical Study of the Highland Bagpipe”, Acustica 4 (1954) 231–232, as quoted by Macpherson 1998; low G is Macpherson's.",
    cents: scale({ ...AGREED, "low-g": [8, 9], d: [27, 20], "high-g": [9, 5] }),
  },
  "1991": {
    name: "1991",
    source: "Published: A. Chatto 1991, as catalogued in the Scala scale archive (bagpipe3.scl).",
    cents: scale({ ...AGREED, "low-g": [9, 10], d: [4, 3], "high-g": [9, 5] }),
  },
  equal: {
    name: "equal",
    source: "Derived: twelve equal semitones to the octave.",
    cents: [-200, 0, 200, 400, 500, 700, 900, 1000, 1200].map(cents),
  },
};

/** Every scale that has a name, the one a new setup gets first. */
export const SCALE_NAMES: readonly PublishedScale[] = ["septimal", "1954", "1991", "equal"];

/** Cents over low A of one of the nine in a scale; negative for low G. */
export function centsInScale(scale: ChanterScale, note: PlainNote): Cents {
  if (scale.kind === "measured") return scale.cents[note];
  return SCALES[scale.name].cents[NINE_NOTES.indexOf(note)] as Cents;
}

/** A published scale's nine values as a measured scale, for the piper to change. */
export function measuredFrom(from: ChanterScale): ChanterScale {
  const entries = NINE_NOTES.map((note) => [note, centsInScale(from, note)] as const);
  return { kind: "measured", cents: Object.fromEntries(entries) as Record<PlainNote, Cents> };
}

function scale(ratios: Readonly<Record<PlainNote, Ratio>>): readonly Cents[] {
  return NINE_NOTES.map((note) => centsOfRatio(ratios[note][0] / ratios[note][1]));
}
