import type { AbcEvent } from "./abc-voice.ts";

/* Words under ABC's notes. Source: the ABC music standard 2.1, section 5.1. */

/** One piece of a `w:` line: a syllable, a note left without one, or a step to the next bar. */
type Piece =
  | { readonly kind: "syllable"; readonly text: string; readonly goesOn: boolean }
  | { readonly kind: "skip" }
  | { readonly kind: "bar" };

/**
 * Sets a line of words to the events of the line of music above, rests left out.
 * @returns how many syllables found no note
 */
export function singWords(text: string, events: readonly AbcEvent[], verse: number): number {
  const notes = events.filter((event) => event.notes.length > 0);
  let place = 0;
  let lost = 0;
  for (const piece of piecesOf(text)) {
    if (piece.kind === "bar") {
      const bar = notes[place - 1]?.bar ?? notes[0]?.bar ?? 0;
      // A bar line in the words moves on to the next bar; where the words are there already, it says nothing.
      if (place > 0) while (place < notes.length && (notes[place] as AbcEvent).bar <= bar) place += 1;
      continue;
    }
    const note = notes[place];
    place += 1;
    if (piece.kind === "skip") continue;
    if (note) note.syllables.push({ verse, text: piece.text, goesOn: piece.goesOn });
    else lost += 1;
  }
  return lost;
}

function piecesOf(text: string): readonly Piece[] {
  const pieces: Piece[] = [];
  let word = "";
  const end = (goesOn: boolean): void => {
    if (word !== "") pieces.push({ kind: "syllable", text: word.replace(/~/g, " ").trim(), goesOn });
    word = "";
  };
  for (let index = 0; index < text.length; index++) {
    const letter = text[index] as string;
    if (letter === "\\" && text[index + 1] === "-") {
      word += "-";
      index += 1;
    } else if (letter === "-") {
      // After a space or another hyphen it stands for a note of its own, on which the syllable is held.
      if (word === "") pieces.push({ kind: "skip" });
      end(true);
    } else if (letter === "_" || letter === "*") {
      end(false);
      pieces.push({ kind: "skip" });
    } else if (letter === "|") {
      end(false);
      pieces.push({ kind: "bar" });
    } else if (/\s/.test(letter)) end(false);
    else word += letter;
  }
  end(false);
  return pieces;
}
