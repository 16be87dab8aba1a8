import type { ChanterNote } from "../pipes/chanter-note.ts";
import type { EmbellishmentName } from "../pipes/embellishment.ts";
import type { Figure } from "../pipes/figures.ts";
import type { SourceMark } from "../pipes/source-mark.ts";
import type { SitePlace } from "./site-places.ts";

/** What is graced: by the kind of tune, or as a line that was sung. */
export const TUNE_TYPES = ["march", "reel", "jig", "hornpipe", "strathspey", "slow air", "song line"] as const;

/** A kind of tune, as it is graced. */
export type TuneType = (typeof TUNE_TYPES)[number];

/** Which notes a rule is about: all that is named here must be so. */
export interface GracedPlace {
  readonly on: readonly ChanterNote[];
  readonly places: readonly SitePlace[];
  /** The tune leans on the note: a beat or more, or longer than the next. */
  readonly held?: true;
  /** It lasts a beat or more. */
  readonly fillsBeat?: true;
  /** A part ends with it. */
  readonly closes?: true;
  /** A short note on the beat snaps to it: it is the longer of the two. */
  readonly snapped?: true;
  /** The line comes down to it by so many steps of the staff at least, or goes either way by so many. */
  readonly comes?: { readonly way: "down" | "either"; readonly steps: number };
}

/** One thing a piper does without being told: such a group on such a note. */
export interface GracingRule extends GracedPlace {
  /** The first of them that fits is played. */
  readonly groups: readonly EmbellishmentName[];
  readonly mark: SourceMark;
}

/** Everything a kind of tune carries. */
export interface FullGracing {
  /** Runs of notes that are graced together; they come before any rule. */
  readonly figures: readonly Figure["name"][];
  /** The first that holds and fits decides; where none does a note on a beat has a single gracenote. */
  readonly rules: readonly GracingRuleName[];
  readonly mark: SourceMark;
}

/** Single gracenotes, the usual first. */
export const SINGLE: readonly EmbellishmentName[] = ["g-gracenote", "thumb-gracenote", "d-gracenote", "e-gracenote", "strike"];

const ON_BEATS: readonly SitePlace[] = ["first-beat", "beat"];
const ANYWHERE: readonly SitePlace[] = ["first-beat", "beat", "between"];
const ON_FIRST: readonly SitePlace[] = ["first-beat"];
const DOUBLED: readonly EmbellishmentName[] = ["doubling", "thumb-doubling", "half-doubling"];
const BIRLS: readonly EmbellishmentName[] = ["birl", "plain-birl"];
/** Notes whose doubling is the usual one; those of the two lowest are heard less. */
const UPPER: readonly ChanterNote[] = ["b", "c-natural", "c", "d", "e", "f-natural", "f", "high-g", "high-a"];
/** Intervals in steps of the staff. */
const UNISON = 0;
const STEP = 1;
const THIRD = 2;
const FOURTH = 3;

/**
 * What is done where. *Source:* from memory, all of it: tutors and settings differ, and nothing that could be read lays it down. The groups
 * themselves, and what they may follow, are vouched for in the table of embellishments.
 */
export const GRACING_RULES = {
  "throw on D": { on: ["d"], places: ON_BEATS, groups: ["light-throw"], mark: "from-memory" },
  "throw on D on the first beat": { on: ["d"], places: ON_FIRST, groups: ["light-throw"], mark: "from-memory" },
  "heavy throw on D on the first beat": { on: ["d"], places: ON_FIRST, groups: ["heavy-throw"], mark: "from-memory" },
  "birl at the end of a part": { on: ["low-a"], places: ANYWHERE, closes: true, groups: BIRLS, mark: "from-memory" },
  "birl on a low A of a beat": {
    on: ["low-a"],
    places: ON_BEATS,
    fillsBeat: true,
    comes: { way: "either", steps: UNISON },
    groups: BIRLS,
    mark: "from-memory",
  },
  "taorluath down to low A or low G": {
    on: ["low-g", "low-a"],
    places: ON_BEATS,
    comes: { way: "down", steps: THIRD },
    groups: ["taorluath"],
    mark: "from-memory",
  },
  "grip over a leap": {
    on: ["b", "c", "e"],
    places: ["beat"],
    comes: { way: "either", steps: FOURTH },
    groups: ["grip"],
    mark: "from-memory",
  },
  "E gracenote where a short note snaps down": {
    on: ["low-g", "low-a", "b", "c"],
    places: ["between"],
    snapped: true,
    comes: { way: "down", steps: STEP },
    groups: ["e-gracenote"],
    mark: "from-memory",
  },
  "doubling on a held note": { on: UPPER, places: ON_BEATS, held: true, groups: DOUBLED, mark: "from-memory" },
  "doubling on a held first beat": { on: UPPER, places: ON_FIRST, held: true, groups: DOUBLED, mark: "from-memory" },
  "doubling on the first beat": { on: UPPER, places: ON_FIRST, groups: DOUBLED, mark: "from-memory" },
  "low doubling on a held first beat": {
    on: ["low-g", "low-a"],
    places: ON_FIRST,
    held: true,
    groups: DOUBLED,
    mark: "from-memory",
  },
} as const satisfies Readonly<Record<string, GracingRule>>;

/** What a rule does, as it stands in a sentence: `birl at the end of a part`. */
export type GracingRuleName = keyof typeof GRACING_RULES;

/**
 * Full gracing by the kind of tune. *Source:* from memory: marches and strathspeys carry groups on the first beat and wherever the tune leans, reels
 * and hornpipes on a first beat it leans on, jigs little but throws and the run of G, D and E, slow airs what the long notes have time for. That a song line is
 * graced sparingly is common practice.
 */
export const FULL_GRACING: Readonly<Record<TuneType, FullGracing>> = {
  march: {
    figures: ["gde"],
    rules: [
      "throw on D",
      "birl at the end of a part",
      "taorluath down to low A or low G",
      "grip over a leap",
      "doubling on a held note",
      "doubling on the first beat",
      "low doubling on a held first beat",
    ],
    mark: "from-memory",
  },
  strathspey: {
    figures: ["tachum"],
    rules: [
      "heavy throw on D on the first beat",
      "throw on D",
      "taorluath down to low A or low G",
      "birl on a low A of a beat",
      "E gracenote where a short note snaps down",
      "grip over a leap",
      "doubling on a held note",
      "doubling on the first beat",
      "low doubling on a held first beat",
    ],
    mark: "from-memory",
  },
  reel: {
    figures: ["gde", "tachum"],
    rules: ["throw on D", "birl at the end of a part", "taorluath down to low A or low G", "doubling on a held first beat"],
    mark: "from-memory",
  },
  hornpipe: {
    figures: ["gde", "tachum"],
    rules: ["throw on D", "birl at the end of a part", "doubling on a held first beat"],
    mark: "from-memory",
  },
  jig: {
    figures: ["gde"],
    rules: ["throw on D", "birl at the end of a part", "doubling on a held first beat"],
    mark: "from-memory",
  },
  "slow air": {
    figures: [],
    rules: ["throw on D", "taorluath down to low A or low G", "grip over a leap", "doubling on a held note"],
    mark: "from-memory",
  },
  "song line": { figures: [], rules: ["throw on D on the first beat"], mark: "common-practice" },
};
