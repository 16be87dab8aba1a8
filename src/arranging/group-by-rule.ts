import type { ChanterNote } from "../pipes/chanter-note.ts";
import type { Embellishment, EmbellishmentName } from "../pipes/embellishment.ts";
import { writtenSpellingOf } from "../pipes/written-pitch.ts";
import { LETTERS, letterIndex } from "../pitch/letter.ts";
import type { GraceSite } from "./grace-sites.ts";
import { type FullGracing, GRACING_RULES, type GracedPlace, type GracingRule } from "./gracing-rules.ts";

/** The group that the first rule which holds on a note, and of which a group fits, puts there; null where there is none. */
export function groupByRule(site: GraceSite, fitting: readonly Embellishment[], { rules }: FullGracing): Embellishment | null {
  for (const name of rules) {
    const rule: GracingRule = GRACING_RULES[name];
    const group = holds(rule, site) ? firstOf(fitting, rule.groups) : null;
    if (group !== null) return group;
  }
  return null;
}

/** The first embellishment by the order of names, not by that of what fits. */
export function firstOf(fitting: readonly Embellishment[], names: readonly EmbellishmentName[]): Embellishment | null {
  for (const name of names) {
    const found = fitting.find((one) => one.name === name);
    if (found !== undefined) return found;
  }
  return null;
}

function holds({ on, places, held, fillsBeat, closes, snapped, comes }: GracedPlace, site: GraceSite): boolean {
  if (!on.includes(site.note.note) || !places.includes(site.place)) return false;
  if (held && !site.held) return false;
  if (fillsBeat && site.lasts < site.beat) return false;
  if (closes && !site.closes) return false;
  if (snapped && !site.snapped) return false;
  return (
    comes === undefined ||
    (site.before.length > 0 && site.before.every((before) => comesBy(comes, before?.note.note ?? null, site.note.note)))
  );
}

/** Whether the line comes to a note as a rule wants it; out of silence it comes from nowhere. */
function comesBy({ way, steps }: NonNullable<GracedPlace["comes"]>, before: ChanterNote | null, note: ChanterNote): boolean {
  if (before === null) return false;
  const up = staffStep(note) - staffStep(before);
  return (way === "down" ? -up : Math.abs(up)) >= steps;
}

/** Height on the staff, in steps. */
export function staffStep(note: ChanterNote): number {
  const { letter, octave } = writtenSpellingOf(note);
  return octave * LETTERS.length + letterIndex(letter);
}
