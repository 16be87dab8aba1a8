import type { PlainNote } from "../pipes/chanter-note.ts";
import { placementOf } from "../pipes/embellishments.ts";
import { fingeringTable } from "../pipes/fingering-table.ts";
import { movementsOf } from "../pipes/gracenote-group.ts";
import { lettersOfGracenotes } from "../pipes/gracenote-letters.ts";
import { GRACENOTE_SECONDS } from "../pipes/gracenote-seconds.ts";
import { gracenotesFromSpelling } from "../pipes/gracenote-spelling.ts";
import { noteName } from "../pipes/note-names.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { seconds } from "../units/seconds.ts";
import { hasTime } from "./fitting-groups.ts";
import { notesBefore } from "./grace-place.ts";
import type { GracenoteChoice, GracenoteOffer } from "./gracenote-offers.ts";
import { embellishmentAt, groupInWords } from "./named-group.ts";

/** Gracenotes that somebody spelled, and what is to be said of them. */
export interface SpelledGroup {
  readonly offer: GracenoteOffer;
  /** A sentence for a group that its note is short for; an empty text otherwise. It may be put there all the same. */
  readonly caution: string;
}

/** So many gracenotes at most: the longest group in the table has five, and a hand that types more has slipped. */
const LONGEST = 12;

/**
 * Gracenotes as a hand spells them for a note: letters or names of notes, or the name of something that is offered there. Refused with a
 * sentence that says what cannot be read, or what cannot be fingered and why. Any length of note will do.
 */
export function spelledGroup(choice: GracenoteChoice, text: string): Outcome<SpelledGroup> {
  const named = choice.offers.find(({ name }) => name.toLowerCase() === text.trim().toLowerCase());
  if (named !== undefined) return done({ offer: named, caution: "" });
  const read = gracenotesFromSpelling(text);
  if (!read.ok) return read;
  const gracenotes = read.value;
  if (gracenotes.length === 0) return refused("Write the gracenotes in the order they are played.");
  if (gracenotes.length > LONGEST) return refused(`A group has ${LONGEST} gracenotes at most; these are ${gracenotes.length}.`);
  const fault = faultOf(choice, gracenotes);
  if (fault !== null) return refused(fault);
  const offer = offerOf(choice, gracenotes);
  return done({ offer, caution: cautionFor(choice, offer) });
}

/** Why gracenotes cannot be fingered there, or null; each way that playing reaches the note is looked at. */
function faultOf({ line, place }: GracenoteChoice, gracenotes: readonly PlainNote[]): string | null {
  const befores = notesBefore(place);
  for (const before of befores) {
    const judged = movementsOf(fingeringTable(line.setup), gracenotes, { before, note: place.note.note });
    if (judged.ok) continue;
    const repeated = before !== befores[0] && before !== null ? ` A repeat leads here from ${noteName(before)}.` : "";
    return `${judged.reason}${repeated}`;
  }
  return null;
}

function offerOf({ place }: GracenoteChoice, gracenotes: readonly PlainNote[]): GracenoteOffer {
  const known = embellishmentAt(place, gracenotes);
  return {
    name: known === null ? "your own spelling" : groupInWords(known),
    spelling: lettersOfGracenotes(gracenotes),
    gracenotes,
    placement: placementOf(gracenotes),
    seconds: seconds(gracenotes.length * GRACENOTE_SECONDS),
    mark: known?.mark ?? "derived",
    source: known?.source ?? "Spelled by hand; the fingers allow it.",
    further: [],
  };
}

function cautionFor({ place }: GracenoteChoice, offer: GracenoteOffer): string {
  if (hasTime(place, offer)) return "";
  const giver = offer.placement === "before-beat" ? "the notes around it are short" : `the note lasts ${milliseconds(place.seconds)}`;
  return `That takes ${milliseconds(offer.seconds)}, and ${giver} at this tempo: it will be hurried.`;
}

function milliseconds(time: number): string {
  return `${Math.round(time * 1000)} ms`;
}
