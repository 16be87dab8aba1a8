import type { EmbellishmentName } from "../pipes/embellishment.ts";
import type { SourceMark } from "../pipes/source-mark.ts";

/** What is graced: by the kind of tune, or as a line that was sung. */
export const TUNE_TYPES = ["march", "reel", "jig", "hornpipe", "strathspey", "slow air", "song line"] as const;

/** A kind of tune, as it is graced. */
export type TuneType = (typeof TUNE_TYPES)[number];

/** What stands on a beat when everything is played, the first that fits; nothing fits: a single gracenote. */
export interface GracingRule {
  readonly firstBeat: readonly EmbellishmentName[];
  readonly otherBeats: readonly EmbellishmentName[];
  readonly mark: SourceMark;
}

/** Single gracenotes, the usual first. */
export const SINGLE: readonly EmbellishmentName[] = ["g-gracenote", "thumb-gracenote", "d-gracenote", "e-gracenote", "strike"];

const DOUBLED: readonly EmbellishmentName[] = ["doubling", "thumb-doubling", "half-doubling"];

/**
 * Full gracing by the kind of tune. *Source:* from memory: marches and strathspeys carry groups on every beat, reels and hornpipes on the
 * first, jigs little but the throw, slow airs a throw or a doubling on the first. That a song line is graced sparingly is common practice.
 */
export const FULL_GRACING: Readonly<Record<TuneType, GracingRule>> = {
  march: { firstBeat: ["light-throw", "birl", ...DOUBLED], otherBeats: ["light-throw", ...DOUBLED], mark: "from-memory" },
  strathspey: { firstBeat: ["heavy-throw", "birl", ...DOUBLED], otherBeats: ["light-throw", ...DOUBLED], mark: "from-memory" },
  reel: { firstBeat: ["light-throw", ...DOUBLED], otherBeats: [], mark: "from-memory" },
  hornpipe: { firstBeat: ["light-throw", ...DOUBLED], otherBeats: [], mark: "from-memory" },
  jig: { firstBeat: ["light-throw"], otherBeats: [], mark: "from-memory" },
  "slow air": { firstBeat: ["light-throw", ...DOUBLED], otherBeats: [], mark: "from-memory" },
  "song line": { firstBeat: ["light-throw"], otherBeats: [], mark: "common-practice" },
};
