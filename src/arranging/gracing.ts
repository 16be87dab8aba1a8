import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import type { Embellishment } from "../pipes/embellishment.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import type { Edit } from "../score/edit.ts";
import type { LineId } from "../score/line-id.ts";
import { pipeLineOf } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import { figureOver, sameGracenotes } from "./figure-over.ts";
import { fittingGroups } from "./fitting-groups.ts";
import { type GraceSite, graceSites, isLike } from "./grace-sites.ts";
import { FULL_GRACING, SINGLE, type TuneType } from "./gracing-rules.ts";
import { firstOf, groupByRule, staffStep } from "./group-by-rule.ts";
import { isInside, type Stretch } from "./stretch.ts";

/** How much is played: only what divides like notes; a gracenote on each beat too; or whatever the kind of tune carries. */
export type GracingDepth = "dividing" | "on-beat" | "full";

/** What is graced, and how. */
export interface GracingWish {
  readonly line: LineId;
  readonly tuneType: TuneType;
  readonly depth: GracingDepth;
  /** Null: the whole line. */
  readonly stretch: Stretch | null;
}

/** The edit that gives a note its gracenotes. */
export type GracenotesEdit = Extract<Edit, { readonly kind: "gracenotes" }>;

/** What gracing by rule comes to. */
export interface Gracing {
  /** In written order, to be applied as one step. */
  readonly edits: readonly GracenotesEdit[];
  /** How many notes there are. */
  readonly notes: number;
  /** How many have gracenotes already, and are left as they are. */
  readonly left: number;
  /** How many like notes stay undivided because no gracenote fits in their time. */
  readonly undivided: number;
}

const NO_GRACENOTES: readonly PlainNote[] = [];

/**
 * What gracing a line by rule would do; nothing where there is no such pipe line. Notes that have gracenotes are left as they are, so that a
 * second time nothing is left to do. Every group can be fingered whichever way playing reaches it, and its note lasts twice as long as it
 * does. In a song line nothing inside a melisma is graced, like notes neither; where it has no words at all, each note counts as sung.
 */
export function gracingOf(score: Score, { line: id, tuneType, depth, stretch }: GracingWish): Gracing {
  const line = pipeLineOf(score, id);
  const sites = line === null ? [] : graceSites(score, line);
  const chosen = sites.map(({ address }) => isInside(score, address, stretch));
  const hasWords = sites.some(isSung);
  const edits: GracenotesEdit[] = [];
  const count = { notes: 0, left: 0, undivided: 0 };
  /** What each note has once this is done; those before it decide how a run of like notes goes on. */
  const played: (readonly PlainNote[])[] = [];
  for (const [index, site] of sites.entries()) {
    const own = site.note.gracenotes;
    const isFree = chosen[index] === true && own.length === 0;
    const gracenotes =
      line !== null && isFree ? gracenotesFor({ setup: line.setup, sites, chosen, played, hasWords, tuneType, depth }, index) : own;
    played.push(gracenotes);
    if (chosen[index] !== true) continue;
    count.notes += 1;
    if (own.length > 0) count.left += 1;
    else if (gracenotes.length > 0) edits.push({ kind: "gracenotes", at: site.address, gracenotes });
    else if (isLike(site) && !(tuneType === "song line" && site.inMelisma)) count.undivided += 1;
  }
  return { edits, ...count };
}

interface Around {
  readonly setup: PipeSetup;
  readonly sites: readonly GraceSite[];
  readonly chosen: readonly boolean[];
  readonly played: readonly (readonly PlainNote[])[];
  /** Whether anything is sung to the line. */
  readonly hasWords: boolean;
  readonly tuneType: TuneType;
  readonly depth: GracingDepth;
}

function gracenotesFor(around: Around, index: number): readonly PlainNote[] {
  const { setup, sites, tuneType, depth } = around;
  const site = sites[index] as GraceSite;
  const isSong = tuneType === "song line";
  if (isSong && site.inMelisma) return NO_GRACENOTES;
  const fitting = fittingGroups(setup, site).filter((group) => isHeardOn(site, group));
  const full = FULL_GRACING[tuneType];
  const inFigure = depth === "full" ? figureOver(sites, index, full.figures, (one, gracenotes) => mayHave(around, one, gracenotes)) : null;
  if (inFigure !== null) return inFigure;
  const onBeat = site.place !== "between";
  const hasSyllable = !around.hasWords || isSung(site);
  const byRule = depth === "full" && !(isSong && (isLike(site) || !hasSyllable)) ? groupByRule(site, fitting, full) : null;
  if (byRule !== null) return byRule.gracenotes;
  if (isLike(site)) return divider(around, index, fitting)?.gracenotes ?? NO_GRACENOTES;
  if (depth === "dividing" || !onBeat || (isSong && !hasSyllable)) return NO_GRACENOTES;
  return firstOf(fitting, SINGLE)?.gracenotes ?? NO_GRACENOTES;
}

/** Whether the rule may play these gracenotes on a note, or the hand has set the very ones. */
function mayHave({ setup, sites, chosen }: Around, index: number, gracenotes: readonly PlainNote[]): boolean {
  const site = sites[index] as GraceSite;
  if (site.note.gracenotes.length > 0) return sameGracenotes(site.note.gracenotes, gracenotes);
  return chosen[index] === true && fittingGroups(setup, site).some((group) => sameGracenotes(group.gracenotes, gracenotes));
}

/** Whether it sets a note off: a gracenote that stands where the note stands, G before G sharp, smears into it; like notes it still divides. */
function isHeardOn(site: GraceSite, { gracenotes: [first, ...others] }: Embellishment): boolean {
  return isLike(site) || others.length > 0 || first === undefined || staffStep(first) !== staffStep(site.note.note);
}

/** Whether a syllable begins on it. */
function isSung({ note }: GraceSite): boolean {
  return note.syllables.some(({ text }) => text !== "");
}

/** The most usual gracenote that divides, but not the one the like note before opened with, where there is another: long runs alternate. */
function divider({ sites, played }: Around, index: number, fitting: readonly Embellishment[]): Embellishment | null {
  const singles = fitting.filter(({ gracenotes }) => gracenotes.length === 1);
  const opening: ChanterNote | undefined = (sites[index]?.likeBefore ?? 0) > 0 ? played[index - 1]?.[0] : undefined;
  return singles.find(({ gracenotes }) => gracenotes[0] !== opening) ?? singles[0] ?? null;
}
