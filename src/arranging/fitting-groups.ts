import type { ChanterNote } from "../pipes/chanter-note.ts";
import type { Embellishment } from "../pipes/embellishment.ts";
import { embellishmentsBetween } from "../pipes/embellishments.ts";
import { type FingeringTable, fingeringTable } from "../pipes/fingering-table.ts";
import { lettersOfGracenotes } from "../pipes/gracenote-letters.ts";
import { leastSecondsFor } from "../pipes/group-time.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { type GracePlace, notesBefore } from "./grace-place.ts";

/**
 * The embellishments that fit on a note, the most usual first: those the fingers can do whichever way playing reaches it, and for which the
 * note that gives the time, and the note itself, are long enough at the tempo in force.
 */
export function fittingGroups(setup: PipeSetup, site: GracePlace): readonly Embellishment[] {
  const table = fingeringTable(setup);
  const kept = onPlaces.get(site);
  if (kept?.table === table) return kept.groups;
  const groups = fingeredGroups(table, notesBefore(site), site.note.note).filter((one) => hasTime(site, one));
  onPlaces.set(site, { table, groups });
  return groups;
}

/** Kept on the place: gracing is looked at one way and then another, and each note is asked about by its neighbours too. */
const onPlaces = new WeakMap<GracePlace, { readonly table: FingeringTable; readonly groups: readonly Embellishment[] }>();

const known = new WeakMap<FingeringTable, Map<string, readonly Embellishment[]>>();

/** What the fingers can do on a note after each of the notes before it. Few places differ, so they are kept for as long as the fingerings are. */
function fingeredGroups(table: FingeringTable, before: readonly (ChanterNote | null)[], note: ChanterNote): readonly Embellishment[] {
  const places = known.get(table) ?? new Map<string, readonly Embellishment[]>();
  known.set(table, places);
  const place = `${before.join()} ${note}`;
  const kept = places.get(place);
  if (kept !== undefined) return kept;
  const [first = [], ...others] = before.map((one) =>
    embellishmentsBetween(table, { before: one, note }).map(({ embellishment }) => embellishment),
  );
  const fitting = first.filter((one) => others.every((those) => those.some((other) => spelling(other) === spelling(one))));
  places.set(place, fitting);
  return fitting;
}

function spelling({ gracenotes }: Embellishment): string {
  return lettersOfGracenotes(gracenotes);
}

/** Whether a note, and the one that gives the time, last twice as long as gracenotes take. */
export function hasTime(place: GracePlace, { gracenotes, placement }: Pick<Embellishment, "gracenotes" | "placement">): boolean {
  const needed = leastSecondsFor(gracenotes);
  const givers = placement === "before-beat" ? place.before.map((before) => before?.seconds ?? place.seconds) : [];
  return [place.seconds, ...givers].every((lasts) => lasts >= needed);
}
