import type { ChanterNote, PlainNote } from "./chanter-note.ts";
import type { SourceMark } from "./source-mark.ts";

/** The embellishments by name, in the order of the table. */
export const EMBELLISHMENT_NAMES = [
  "g-gracenote",
  "d-gracenote",
  "e-gracenote",
  "thumb-gracenote",
  "doubling",
  "half-doubling",
  "thumb-doubling",
  "light-throw",
  "heavy-throw",
  "grip",
  "taorluath",
  "birl",
  "plain-birl",
  "strike",
] as const;

/** What an embellishment is called; one name has several spellings, by the note it adorns and the note before. */
export type EmbellishmentName = (typeof EMBELLISHMENT_NAMES)[number];

/**
 * Which note gives its time. `on-beat`: the first gracenote falls where the note is written. `before-beat`: the last one ends there, and
 * the note before is that much shorter.
 */
export type EmbellishmentPlacement = "before-beat" | "on-beat";

/** One spelling of an embellishment: upon one note, after certain notes. */
export interface Embellishment {
  readonly name: EmbellishmentName;
  /** The note it leads into. */
  readonly on: ChanterNote;
  /** The notes it may follow, lowest first. */
  readonly after: readonly ChanterNote[];
  /** Whether it may be the first thing the chanter sounds. */
  readonly afterSilence: boolean;
  /** In the order they are played. */
  readonly gracenotes: readonly PlainNote[];
  readonly placement: EmbellishmentPlacement;
  /** Print disagrees about the placement of groups; that of a single gracenote is common practice. */
  readonly placementDisputed: boolean;
  /** How far the spelling is vouched for. */
  readonly mark: SourceMark;
  /** Where the spelling comes from, in words that can be shown. */
  readonly source: string;
}

const WORDS: Readonly<Record<EmbellishmentName, string>> = {
  "g-gracenote": "G gracenote",
  "d-gracenote": "D gracenote",
  "e-gracenote": "E gracenote",
  "thumb-gracenote": "thumb gracenote",
  doubling: "doubling",
  "half-doubling": "half doubling",
  "thumb-doubling": "thumb doubling",
  "light-throw": "light throw",
  "heavy-throw": "heavy throw",
  grip: "grip",
  taorluath: "taorluath",
  birl: "birl",
  "plain-birl": "plain birl",
  strike: "strike",
};

/** An embellishment's name as it stands in a sentence: `heavy throw`. */
export function embellishmentInWords(name: EmbellishmentName): string {
  return WORDS[name];
}
