import type { Embellishment } from "../pipes/embellishment.ts";
import { embellishmentsBetween, type FittingEmbellishment } from "../pipes/embellishments.ts";
import { fingeringTable } from "../pipes/fingering-table.ts";
import { lettersOfGracenotes } from "../pipes/gracenote-letters.ts";
import { GRACENOTE_SECONDS } from "../pipes/gracenote-seconds.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { type GraceSite, notesBefore } from "./grace-sites.ts";

/** A note is to last so many times its group. *Source:* common practice. */
const TIMES_ITS_GROUP = 2;

/**
 * The embellishments that fit on a note, the most usual first: those the fingers can do whichever way playing reaches it, and for which the
 * note that gives the time, and the note itself, are long enough at the tempo in force.
 */
export function fittingGroups(setup: PipeSetup, site: GraceSite): readonly Embellishment[] {
  const table = fingeringTable(setup);
  const note = site.note.note;
  const [first = [], ...others] = notesBefore(site).map((before) => embellishmentsBetween(table, { before, note }));
  return first
    .filter((one) => others.every((fitting) => hasSpelling(fitting, one)))
    .map(({ embellishment }) => embellishment)
    .filter((one) => hasTime(site, one));
}

function hasSpelling(fitting: readonly FittingEmbellishment[], { embellishment }: FittingEmbellishment): boolean {
  const letters = lettersOfGracenotes(embellishment.gracenotes);
  return fitting.some((one) => lettersOfGracenotes(one.embellishment.gracenotes) === letters);
}

function hasTime(site: GraceSite, { gracenotes, placement }: Embellishment): boolean {
  const needed = gracenotes.length * GRACENOTE_SECONDS * TIMES_ITS_GROUP;
  const givers = placement === "before-beat" ? site.before.map((before) => before?.seconds ?? site.seconds) : [];
  return [site.seconds, ...givers].every((lasts) => lasts >= needed);
}
