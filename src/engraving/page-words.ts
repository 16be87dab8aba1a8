import type { Tune } from "../score/frame.ts";
import type { Line, Score } from "../score/score.ts";
import { groupOf, hundredths } from "./boxes.ts";
import type { Anchor, Face, MarkGroup, TextMark } from "./drawing.ts";
import type { PartStyle } from "./part-style.ts";
import { chordCaptions, partCaptions } from "./part-words.ts";
import { textWidth } from "./text-width.ts";

/** The type that words of a page are set in; sizes are units of the page. */
export interface PageType {
  readonly face: Face;
  readonly weight: 400 | 600;
  readonly size: number;
}

const TITLE: PageType = { face: "serif", weight: 600, size: 26 };
const TUNE: PageType = { face: "serif", weight: 600, size: 20 };
const NAME: PageType = { face: "serif", weight: 600, size: 16 };
const WORDS: PageType = { face: "serif", weight: 400, size: 14 };
const MEASURES: PageType = { face: "sans", weight: 400, size: 12 };
const FOOTER: PageType = { face: "sans", weight: 400, size: 10.5 };

/** Title in the middle, under it the ensemble, the tune type left and the composer right; then whose part it is and how it is written. */
export function headerGroups(score: Score, line: Line, style: PartStyle, left: number, right: number, top: number): readonly MarkGroup[] {
  const { tuneType, composer, arranger, ensemble } = score.credits;
  const middle = (left + right) / 2;
  const groups = [words(titleOf(score), middle, top + 22, fitted(titleOf(score), TITLE, right - left), "middle")];
  let y = top + 22;
  if (ensemble !== "") {
    y += 21;
    groups.push(words(ensemble, middle, y, WORDS, "middle"));
  }
  y += 24;
  if (tuneType !== "") groups.push(words(tuneType, left, y, { ...WORDS, face: "italic" }, "start"));
  const makers = [composer, arranger === "" ? "" : `arranged by ${arranger}`].filter((name) => name !== "").join(", ");
  if (makers !== "") groups.push(words(makers, right, y, WORDS, "end"));
  y += tuneType === "" && makers === "" ? 0 : 26;
  groups.push(words(line.name, left, y, NAME, "start"));
  const after = left + textWidth(line.name, NAME.face, NAME.weight, NAME.size) + 12;
  const captions = [...partCaptions(score, line, 0), ...chordCaptions(score, line, style)];
  groups.push(words(captions.join(", "), after, y, MEASURES, "start"));
  return groups;
}

/** What the score is headed with. */
export function titleOf({ title }: Score): string {
  return title === "" ? "Untitled" : title;
}

/** From the top of a tune's heading to the end of its words. */
const TUNE_ROW = 24;

/** A tune of a set, in one row: its type left, its title in the middle, its composer right; in two where they would meet. */
export function tuneGroups({ title, tuneType, composer }: Tune, left: number, right: number, top: number): readonly MarkGroup[] {
  const type = fitted(title, TUNE, right - left);
  const half = widthOf(title, type) / 2;
  const sides = Math.max(widthOf(tuneType, { ...WORDS, face: "italic" }), widthOf(composer, WORDS));
  const inOneRow = title === "" || half + sides + 16 <= (right - left) / 2;
  const groups: MarkGroup[] = [];
  const baseline = top + 17;
  if (title !== "") groups.push(words(title, (left + right) / 2, baseline, type, "middle"));
  const second = inOneRow ? baseline : baseline + TUNE_ROW;
  if (tuneType !== "")
    groups.push(words(tuneType, left, second, { ...fitted(tuneType, WORDS, (right - left) / 2 - 8), face: "italic" }, "start"));
  if (composer !== "") groups.push(words(composer, right, second, fitted(composer, WORDS, (right - left) / 2 - 8), "end"));
  return groups;
}

/** The line at the foot of every page. */
export function footerGroup(text: string, x: number, y: number): MarkGroup {
  return words(text, x, y, FOOTER, "middle");
}

/** A type made so much smaller that the words keep to a width. */
function fitted(text: string, type: PageType, width: number): PageType {
  return { ...type, size: hundredths(type.size * Math.min(1, width / widthOf(text, type))) };
}

function widthOf(text: string, { face, weight, size }: PageType): number {
  return textWidth(text, face, weight, size);
}

function words(text: string, x: number, y: number, { face, weight, size }: PageType, anchor: Anchor): MarkGroup {
  const mark: TextMark = { kind: "text", x: hundredths(x), y: hundredths(y), text, face, weight, size, anchor };
  return groupOf("furniture", null, [mark]);
}
