import type { TextMark } from "../engraving/drawing.ts";
import { textWidth } from "../engraving/text-width.ts";

/** Letters of a text that are taken from one place. */
export interface TextRun<Source> {
  readonly source: Source;
  readonly text: string;
  /** Where it begins and how wide it was reckoned to be, in the unit of the text's size. */
  readonly x: number;
  readonly width: number;
}

/** A text cut into runs, from left to right, that each come from one source. The text's anchor is reckoned in: `x` is where ink begins. */
export function textRuns<Source>(mark: TextMark, sourceOf: (letter: string) => Source): readonly TextRun<Source>[] {
  const { text, face, weight, size, anchor } = mark;
  const widthOf = (part: string): number => textWidth(part, face, weight, size);
  const width = widthOf(text);
  const runs: { source: Source; text: string }[] = [];
  for (const letter of text) {
    const source = sourceOf(letter);
    const last = runs.at(-1);
    if (last?.source === source) last.text += letter;
    else runs.push({ source, text: letter });
  }
  let x = mark.x - (anchor === "start" ? 0 : anchor === "middle" ? width / 2 : width);
  return runs.map((run) => {
    const placed = { ...run, x, width: widthOf(run.text) };
    x += placed.width;
    return placed;
  });
}
