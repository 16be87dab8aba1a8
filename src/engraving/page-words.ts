import type { Line, Score } from "../score/score.ts";
import { groupOf, hundredths } from "./boxes.ts";
import type { Anchor, Face, MarkGroup, TextMark } from "./drawing.ts";
import { partCaptions } from "./part-words.ts";
import { textWidth } from "./text-width.ts";

interface Type {
  readonly face: Face;
  readonly weight: 400 | 600;
  readonly size: number;
}

const TITLE: Type = { face: "serif", weight: 600, size: 26 };
const NAME: Type = { face: "serif", weight: 600, size: 16 };
const WORDS: Type = { face: "serif", weight: 400, size: 14 };
const MEASURES: Type = { face: "sans", weight: 400, size: 12 };
const FOOTER: Type = { face: "sans", weight: 400, size: 10.5 };

/** Title in the middle, under it the ensemble, the tune type left and the composer right; then whose part it is and how it is written. */
export function headerGroups(score: Score, line: Line, left: number, right: number, top: number): readonly MarkGroup[] {
  const { tuneType, composer, arranger, ensemble } = score.credits;
  const middle = (left + right) / 2;
  const title = score.title === "" ? "Untitled" : score.title;
  const fitting = Math.min(1, (right - left) / textWidth(title, TITLE.face, TITLE.weight, TITLE.size));
  const groups = [words(title, middle, top + 22, { ...TITLE, size: hundredths(TITLE.size * fitting) }, "middle")];
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
  groups.push(words(partCaptions(score, line, 0).join(", "), after, y, MEASURES, "start"));
  return groups;
}

/** The line at the foot of every page. */
export function footerGroup(text: string, x: number, y: number): MarkGroup {
  return words(text, x, y, FOOTER, "middle");
}

function words(text: string, x: number, y: number, { face, weight, size }: Type, anchor: Anchor): MarkGroup {
  const mark: TextMark = { kind: "text", x: hundredths(x), y: hundredths(y), text, face, weight, size, anchor };
  return groupOf("furniture", null, [mark]);
}
