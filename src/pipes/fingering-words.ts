import { listed } from "../units/listed.ts";
import { CHANTER_NOTES, type ChanterNote, isCrossFingered, NINE_NOTES, type PlainNote } from "./chanter-note.ts";
import { fingeringTable } from "./fingering-table.ts";
import { holesOf, PLAIN_FINGERINGS } from "./fingerings.ts";
import { movementsOf } from "./gracenote-group.ts";
import { gracenoteInWords } from "./gracenote-words.ts";
import { noteName } from "./note-names.ts";
import type { Holes, PipeSetup } from "./pipe-setup.ts";
import { withFingering } from "./setup-changes.ts";

/** The nine that this piper fingers otherwise than the tables have them, lowest first. */
export function ownFingerings({ fingerings }: PipeSetup): readonly PlainNote[] {
  return NINE_NOTES.filter((note) => fingerings[note] !== PLAIN_FINGERINGS[note]);
}

/** How the nine are fingered, as it stands in the setup's sentence: `as usual`, `as usual but for D and F`. */
export function fingeringWords(setup: PipeSetup): string {
  const own = ownFingerings(setup).map(noteName);
  if (own.length === 0) return "as usual";
  return own.length > 3 ? `your way on ${own.length} notes` : `as usual but for ${listed(own)}`;
}

/** Why a note may not be fingered so, or null: two notes would be fingered alike. */
export function fingeringRefusal(setup: PipeSetup, note: ChanterNote, holes: Holes): string | null {
  const alike = CHANTER_NOTES.find((other) => other !== note && holesOf(setup, other) === holes);
  if (alike === undefined) return null;
  if (isCrossFingered(alike)) return `So fingered, ${noteName(note)} would be ${noteName(alike)}. Change that one first.`;
  return `So fingered, ${noteName(note)} would be ${noteName(alike)}: two notes cannot be fingered alike.`;
}

/**
 * What a note's own fingering changes for the gracenotes upon it, in a sentence: `Two Ds are no longer divided by a D gracenote.` Null where the
 * note is fingered as usual, or divides as it does then.
 */
export function fingeringConsequence(setup: PipeSetup, note: PlainNote): string | null {
  if (setup.fingerings[note] === PLAIN_FINGERINGS[note]) return null;
  const now = dividersOf(setup, note);
  const usual = dividersOf(withFingering(setup, note, PLAIN_FINGERINGS[note]), note);
  const lost = [...usual].filter(([gracenote]) => !now.has(gracenote)).map(([, words]) => words);
  const won = [...now].filter(([gracenote]) => !usual.has(gracenote)).map(([, words]) => words);
  if (now.size === 0) return `No single gracenote divides two ${noteName(note)}s any more.`;
  const parts = [
    ...(lost.length === 0 ? [] : [`no longer divided by ${listed(lost, "or")}`]),
    ...(won.length === 0 ? [] : [`now divided by ${listed(won, "or")} too`]),
  ];
  return parts.length === 0 ? null : `Two ${noteName(note)}s are ${listed(parts)}.`;
}

/** The single gracenotes that divide two notes alike, and what each is called, lowest first. */
function dividersOf(setup: PipeSetup, note: ChanterNote): ReadonlyMap<PlainNote, string> {
  const table = fingeringTable(setup);
  const found = NINE_NOTES.flatMap((gracenote): (readonly [PlainNote, string])[] => {
    const movements = movementsOf(table, [gracenote], { before: note, note });
    if (!movements.ok) return [];
    return [[gracenote, movements.value[0]?.kind === "strike" ? `a strike to ${noteName(gracenote)}` : gracenoteInWords(gracenote)]];
  });
  return new Map(found);
}
