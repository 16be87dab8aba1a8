import type { PlainNote } from "../pipes/chanter-note.ts";
import { type Embellishment, embellishmentInWords } from "../pipes/embellishment.ts";
import { embellishmentOf } from "../pipes/embellishments.ts";
import { noteName } from "../pipes/note-names.ts";
import { type GracePlace, notesBefore } from "./grace-place.ts";

/** The embellishment that gracenotes are in a place, after what sounds before it in the bars as played first; null when the table has none. */
export function embellishmentAt(place: GracePlace, gracenotes: readonly PlainNote[]): Embellishment | null {
  return embellishmentOf(gracenotes, { before: notesBefore(place)[0] ?? null, note: place.note.note });
}

/** An embellishment's name as it stands in a sentence; a strike says of what: `light throw`, `C strike`. */
export function groupInWords({ name, gracenotes }: Pick<Embellishment, "name" | "gracenotes">): string {
  const [first] = gracenotes;
  const struck = name === "strike" && first !== undefined ? `${noteName(first)} ` : "";
  return `${struck}${embellishmentInWords(name)}`;
}

/** What a note has, with its article: `a light throw`, `an E gracenote`; of no name, its notes: `gracenotes high G, E`. Empty where there is none. */
export function gracingInWords(place: GracePlace): string {
  const { gracenotes } = place.note;
  if (gracenotes.length === 0) return "";
  const known = embellishmentAt(place, gracenotes);
  if (known === null) return `gracenotes ${gracenotes.map(noteName).join(", ")}`;
  const name = groupInWords(known);
  return `${/^[EF] |^[aeio]/.test(name) ? "an" : "a"} ${name}`;
}
