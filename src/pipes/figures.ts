import type { ChanterNote, PlainNote } from "./chanter-note.ts";
import type { SourceMark } from "./source-mark.ts";

/** One note of a figure, with what stands before it. */
export interface FigureNote {
  readonly note: ChanterNote;
  readonly gracenotes: readonly PlainNote[];
  /** Null where any length will do. */
  readonly length: "short" | "long" | null;
}

/** A custom that spans several notes, which are given with it. */
export interface Figure {
  readonly name: "gde" | "tachum";
  readonly notes: readonly FigureNote[];
  readonly mark: SourceMark;
  /** In words that can be shown. */
  readonly source: string;
}

/** Three like notes divided by G, D and E in turn. *Source:* published, glossaries. */
const GDE: readonly Figure[] = (["low-g", "low-a", "b", "c"] as const).map((note) => ({
  name: "gde",
  notes: (["high-g", "d", "e"] as const).map((gracenote) => ({ note, gracenotes: [gracenote], length: null })),
  mark: "published",
  source: "Piping glossaries.",
}));

/** A short doubled note and a long one under it. *Source:* ABC standard 2.1, sample tunes; forms vary, the one to low G is from memory. */
const TACHUMS: readonly Figure[] = [
  {
    name: "tachum",
    notes: [
      { note: "c", gracenotes: ["high-g", "c", "d"], length: "short" },
      { note: "low-a", gracenotes: ["e"], length: "long" },
    ],
    mark: "published",
    source: "ABC standard 2.1, sample tunes. Forms vary.",
  },
  {
    name: "tachum",
    notes: [
      { note: "b", gracenotes: ["high-g", "b", "d"], length: "short" },
      { note: "low-g", gracenotes: ["e"], length: "long" },
    ],
    mark: "from-memory",
    source: "From memory. Forms vary.",
  },
];

/** Customs that span several notes. */
export const FIGURES: readonly Figure[] = [...GDE, ...TACHUMS];

/** The figures that a run of notes begins with. Whether its lengths suit, and whether the first gracenote is heard after what comes before, is for the caller to see. */
export function figuresAt(notes: readonly ChanterNote[]): readonly Figure[] {
  return FIGURES.filter((figure) => figure.notes.every(({ note }, index) => notes[index] === note));
}

/** A figure's name as it stands in a sentence: `G, D, E in turn`. */
export function figureInWords({ name }: Figure): string {
  return name === "gde" ? "G, D, E in turn" : name;
}
