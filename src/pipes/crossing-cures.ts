import { type ChanterNote, CROSS_FINGERED_NOTES, type CrossFingeredNote, NINE_NOTES, type PlainNote } from "./chanter-note.ts";
import { crossFingeringEntry } from "./cross-fingerings.ts";
import { type Crossing, crossingOf } from "./crossing.ts";
import { embellishmentsBetween } from "./embellishments.ts";
import { type FingeringTable, fingeringTable } from "./fingering-table.ts";
import { holesOf } from "./fingerings.ts";
import type { Holes, PipeSetup } from "./pipe-setup.ts";
import { withCrossFingering } from "./setup-changes.ts";

/** A single gracenote that covers a crossing. */
export interface Cover {
  readonly gracenote: PlainNote;
  readonly kind: "lift" | "strike";
}

const covers = new WeakMap<FingeringTable, Map<string, Cover | null>>();

/**
 * The most usual gracenote that covers the crossing between two notes: with it nothing passes, or nothing once its finger is off first.
 * Null when none does, or nothing passes without.
 */
export function coverOf(setup: PipeSetup, from: ChanterNote, to: ChanterNote): Cover | null {
  const table = fingeringTable(setup);
  const known = covers.get(table) ?? new Map<string, Cover | null>();
  covers.set(table, known);
  const key = `${from} ${to}`;
  const kept = known.get(key);
  if (kept !== undefined) return kept;
  const cover = findCover(setup, from, to);
  known.set(key, cover);
  return cover;
}

function findCover(setup: PipeSetup, from: ChanterNote, to: ChanterNote): Cover | null {
  const bare = crossingOf(setup, from, to, []);
  for (const { embellishment, movements } of embellishmentsBetween(fingeringTable(setup), { before: from, note: to })) {
    const [gracenote] = embellishment.gracenotes;
    const [movement, another] = movements;
    if (gracenote === undefined || movement === undefined || another !== undefined) continue;
    const covered = crossingOf(setup, from, to, [gracenote]);
    if (isEasier(covered, bare) && (covered.hiddenBy !== null || covered.notes.length === 0)) return { gracenote, kind: movement.kind };
  }
  return null;
}

/** Whether nothing else can sound than before, and in fewer orders of the fingers. */
export function isEasier(one: Crossing, other: Crossing): boolean {
  return one.share < other.share && one.notes.every((note) => other.notes.includes(note));
}

/** Another fingering in use for a cross-fingered note. */
export interface OtherFingering {
  readonly note: CrossFingeredNote;
  readonly holes: Holes;
  /** The setup with it. */
  readonly setup: PipeSetup;
}

const others = new WeakMap<PipeSetup, readonly OtherFingering[]>();

/** The fingerings in use with which a cross-fingered note's ways in and out, those from and to the nine taken together, ask for less care. */
export function easierFingerings(setup: PipeSetup): readonly OtherFingering[] {
  const kept = others.get(setup);
  if (kept !== undefined) return kept;
  const found = CROSS_FINGERED_NOTES.flatMap((note) =>
    crossFingeringEntry(note)
      .holes.filter((holes) => holes !== holesOf(setup, note))
      .map((holes): OtherFingering => ({ note, holes, setup: withCrossFingering(setup, note, { holes }) }))
      .filter((other) => careFor(note, other.setup) < careFor(note, setup)),
  );
  others.set(setup, found);
  return found;
}

/** How much care a note asks for among the nine: the shares of its ways in and out, added up. */
function careFor(note: ChanterNote, setup: PipeSetup): number {
  return NINE_NOTES.reduce((sum, plain) => sum + crossingOf(setup, plain, note, []).share + crossingOf(setup, note, plain, []).share, 0);
}
