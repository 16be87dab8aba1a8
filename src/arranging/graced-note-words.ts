import { embellishmentInWords } from "../pipes/embellishment.ts";
import { embellishmentOf } from "../pipes/embellishments.ts";
import { lettersOfGracenotes } from "../pipes/gracenote-letters.ts";
import { noteName } from "../pipes/note-names.ts";
import type { Address } from "../score/address.ts";
import { barNumber } from "../score/bar-number.ts";
import { pipeLineOf } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import { notesBefore } from "./grace-place.ts";
import { gracePlaceAt } from "./grace-place-at.ts";

/** A note with what leads into it, as a sentence: `Bar 10: light throw on D, {Gdc}.` Empty where no pipe note is. */
export function gracedNoteInWords(score: Score, address: Address): string {
  const line = pipeLineOf(score, address.line);
  const place = line === null ? null : gracePlaceAt(score, line, address);
  if (place === null) return "";
  const { note, gracenotes } = place.note;
  const bar = `Bar ${barNumber(score, place.address.bar)}`;
  if (gracenotes.length === 0) return `${bar}: plain ${noteName(note)}.`;
  const known = notesBefore(place).map((before) => embellishmentOf(gracenotes, { before, note }));
  const name = known.find((one) => one !== null)?.name;
  return `${bar}: ${name === undefined ? "gracenotes" : embellishmentInWords(name)} on ${noteName(note)}, ${lettersOfGracenotes(gracenotes)}.`;
}
