import type { PlainNote } from "./chanter-note.ts";
import type { Embellishment, EmbellishmentName, EmbellishmentPlacement } from "./embellishment.ts";
import { EMBELLISHMENTS } from "./embellishment-table.ts";
import type { FingeringTable } from "./fingering-table.ts";
import { type GracenotePlace, movementsOf } from "./gracenote-group.ts";
import { lettersOfGracenotes } from "./gracenote-letters.ts";
import type { GracenoteMovement } from "./gracenote-movement.ts";

/** An embellishment that fits a place, with what the fingers do. */
export interface FittingEmbellishment {
  readonly embellishment: Embellishment;
  /** One for each of its gracenotes, in the order they are played. */
  readonly movements: readonly GracenoteMovement[];
}

/**
 * What fits between two notes, spelled out for them, the most usual first; no spelling twice. Only what the fingers can do on this setup:
 * an edited fingering may rule out what the table has. Other spellings are judged by `movementsOf`.
 */
export function embellishmentsBetween(table: FingeringTable, place: GracenotePlace): readonly FittingEmbellishment[] {
  const fitting = new Map<string, FittingEmbellishment>();
  for (const embellishment of EMBELLISHMENTS.filter((candidate) => mayStand(candidate, place)).sort(byUse(place))) {
    const spelling = lettersOfGracenotes(embellishment.gracenotes);
    const movements = movementsOf(table, embellishment.gracenotes, place);
    if (movements.ok && !fitting.has(spelling)) fitting.set(spelling, { embellishment, movements: movements.value });
  }
  return [...fitting.values()];
}

/** The embellishment that gracenotes are, where they stand; null when the table has none so spelled in that place. */
export function embellishmentOf(gracenotes: readonly PlainNote[], place: GracenotePlace): Embellishment | null {
  const spelling = lettersOfGracenotes(gracenotes);
  const known = EMBELLISHMENTS.filter((candidate) => mayStand(candidate, place) && lettersOfGracenotes(candidate.gracenotes) === spelling);
  return known.sort(byUse(place))[0] ?? null;
}

const placements = new Map(EMBELLISHMENTS.map(({ gracenotes, placement }) => [lettersOfGracenotes(gracenotes), placement]));

/** Which note gives its time to gracenotes so spelled; on the beat where the table does not know them. */
export function placementOf(gracenotes: readonly PlainNote[]): EmbellishmentPlacement {
  return placements.get(lettersOfGracenotes(gracenotes)) ?? "on-beat";
}

function mayStand({ on, after, afterSilence }: Embellishment, { before, note }: GracenotePlace): boolean {
  return on === note && (before === null ? afterSilence : after.includes(before));
}

/** From the plainest to the most elaborate, as a player meets them. An order of our own; nothing published counts them. */
const USE: readonly EmbellishmentName[] = [
  "g-gracenote",
  "d-gracenote",
  "e-gracenote",
  "light-throw",
  "heavy-throw",
  "birl",
  "doubling",
  "thumb-doubling",
  "half-doubling",
  "plain-birl",
  "taorluath",
  "grip",
  "strike",
  "thumb-gracenote",
];

/**
 * As in `USE`, but strikes come after the single gracenotes where they divide like notes and on high G sharp, which has little else, and the
 * thumb comes first where it replaces the G.
 */
function byUse({ before, note }: GracenotePlace): (one: Embellishment, other: Embellishment) => number {
  const rank = ({ name }: Embellishment): number => {
    if (name === "strike" && (before === note || note === "high-g-sharp")) return USE.indexOf("e-gracenote") + 0.5;
    if (name === "thumb-gracenote" && (before === "high-g" || note === "high-g")) return -1;
    return USE.indexOf(name);
  };
  return (one, other) => rank(one) - rank(other);
}
