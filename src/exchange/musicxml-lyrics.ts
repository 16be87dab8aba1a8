import type { Syllable } from "../score/bar.ts";
import { element, elementWith, type XmlElement } from "./xml.ts";

/** Whether each verse stands inside a word, verse by verse; it goes on from note to note and bar to bar. */
export type OpenWords = readonly boolean[];

/** No verse has begun. */
export const NO_OPEN_WORDS: OpenWords = [];

/** The words under a note, and how every verse stands after it. A verse with nothing to say here is left as it was. */
export function lyricsOf(
  syllables: readonly Syllable[],
  open: OpenWords,
): { readonly elements: readonly XmlElement[]; readonly open: OpenWords } {
  const verses = syllables.map((syllable, index) => ({ ...syllable, inWord: open[index] ?? false, number: String(index + 1) }));
  const sung = verses.filter(({ text }) => text !== "");
  const after = verses.map(({ text, hyphen, inWord }) => (text === "" ? inWord : hyphen));
  return {
    elements: sung.map(({ text, hyphen, inWord, number }) =>
      elementWith("lyric", { number }, element("syllabic", syllabic(inWord, hyphen)), element("text", text)),
    ),
    open: [...after, ...open.slice(after.length)],
  };
}

function syllabic(inWord: boolean, goesOn: boolean): string {
  if (inWord) return goesOn ? "middle" : "end";
  return goesOn ? "begin" : "single";
}
