import type { Embellishment, EmbellishmentName } from "../pipes/embellishment.ts";
import type { Moment } from "../score/address.ts";
import { timeOf } from "../score/bar-starts.ts";
import type { Edit } from "../score/edit.ts";
import type { LineId } from "../score/line-id.ts";
import { pipeLineOf } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import { fittingGroups } from "./fitting-groups.ts";
import { type GraceSite, graceSites } from "./grace-sites.ts";
import { FULL_GRACING, SINGLE, type TuneType } from "./gracing-rules.ts";

/** How much is played: only what divides like notes; a gracenote on each beat too; or whatever the kind of tune carries. */
export type GracingDepth = "dividing" | "on-beat" | "full";

/** A stretch of the score as written: from its first moment up to, not including, the second. */
export interface Stretch {
  readonly from: Moment;
  readonly to: Moment;
}

/** What is graced, and how. */
export interface GracingWish {
  readonly line: LineId;
  readonly tuneType: TuneType;
  readonly depth: GracingDepth;
  /** Null: the whole line. */
  readonly stretch: Stretch | null;
}

/**
 * The edits that grace a line by rule, in written order, to be applied as one step; none where there is no such pipe line. Notes that have
 * gracenotes are left as they are, so that a second time nothing is left to do. Every group can be fingered whichever way playing reaches
 * it, and its note lasts twice as long as it does. In a song line nothing inside a melisma is graced, like notes neither.
 */
export function gracingEdits(score: Score, { line: id, tuneType, depth, stretch }: GracingWish): readonly Edit[] {
  const line = pipeLineOf(score, id);
  if (line === null) return [];
  return graceSites(score, line)
    .filter((site) => site.note.gracenotes.length === 0 && isInside(score, site.address, stretch))
    .flatMap((site): readonly Edit[] => {
      const group = groupFor(site, fittingGroups(line.setup, site), tuneType, depth);
      return group === null ? [] : [{ kind: "gracenotes", at: site.address, gracenotes: group.gracenotes }];
    });
}

/** Whether a moment lies in a stretch; in no stretch, which is everywhere, it does. */
export function isInside({ frames }: Score, moment: Moment, stretch: Stretch | null): boolean {
  if (stretch === null) return true;
  const time = timeOf(frames, moment);
  return timeOf(frames, stretch.from) <= time && time < timeOf(frames, stretch.to);
}

function groupFor(site: GraceSite, fitting: readonly Embellishment[], tuneType: TuneType, depth: GracingDepth): Embellishment | null {
  const isSong = tuneType === "song line";
  if (isSong && site.inMelisma) return null;
  if (site.before.some((before) => before?.note.note === site.note.note)) return divider(site, fitting);
  if (depth === "dividing" || site.place === "between") return null;
  if (isSong && !site.note.syllables.some(({ text }) => text !== "")) return null;
  const { firstBeat, otherBeats } = FULL_GRACING[tuneType];
  const groups = depth === "on-beat" ? [] : site.place === "first-beat" ? firstBeat : otherBeats;
  return firstOf(fitting, groups) ?? firstOf(fitting, SINGLE);
}

/** A run of like notes alternates between the two most usual gracenotes that divide it. */
function divider({ likeBefore }: GraceSite, fitting: readonly Embellishment[]): Embellishment | null {
  const singles = fitting.filter(({ gracenotes }) => gracenotes.length === 1);
  return (likeBefore > 0 && likeBefore % 2 === 0 ? singles[1] : singles[0]) ?? singles[0] ?? null;
}

function firstOf(fitting: readonly Embellishment[], names: readonly EmbellishmentName[]): Embellishment | null {
  for (const name of names) {
    const found = fitting.find((one) => one.name === name);
    if (found !== undefined) return found;
  }
  return null;
}
