import { shownNumber } from "../units/shown.ts";
import type { BarContext } from "./bar-context.ts";
import { boxAround, boxOf, hundredths } from "./boxes.ts";
import type { Mark } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { textWidth } from "./text-width.ts";

/*
 * Section and tempo, which stand on one line over the beginning of their bar:
 *
 *    Verse   ♩ = 96
 */

const SECTION = { face: "serif", weight: 600, size: 15 } as const;
const FIGURE = { face: "sans", weight: 400, size: 13 } as const;

/** From the section's name to the tempo. */
const BETWEEN = 14;

/** The tempo's note is smaller than those on the staff. */
const SCALE = 0.66;
const STEM = 14.6;
const STEM_WIDTH = 0.8;

/** Section and tempo on a baseline; nothing where a bar has neither. */
export function headingMarks({ section, tempo }: Pick<BarContext, "section" | "tempo">, y: number): readonly Mark[] {
  const marks: Mark[] = section === "" ? [] : [{ kind: "text", x: 0, y: hundredths(y), text: section, ...SECTION, anchor: "start" }];
  const from = section === "" ? 0 : textWidth(section, SECTION.face, SECTION.weight, SECTION.size) + BETWEEN;
  return tempo === null ? marks : [...marks, ...tempoMarks(tempo, from, y)];
}

/** How wide a bar's section and tempo are together; 0 where it has neither. */
export function headingWidth(context: Pick<BarContext, "section" | "tempo">): number {
  const marks = headingMarks(context, 0);
  return marks.length === 0 ? 0 : boxAround(marks.map(boxOf)).right;
}

/** A note value, an equals sign and a figure. */
function tempoMarks({ beat, perMinute }: { readonly beat: number; readonly perMinute: number }, x: number, y: number): readonly Mark[] {
  const dotted = [1440, 2880, 720, 360].includes(beat);
  const plain = dotted ? (beat * 2) / 3 : beat;
  const code = plain >= 3840 ? SIGN.head.whole : plain >= 1920 ? SIGN.head.half : SIGN.head.black;
  const head = glyphWidth(code) * SCALE;
  const stem = hundredths(x + head - 0.35);
  const headY = hundredths(y - 2.4);
  const tip = hundredths(headY - STEM);
  const marks: Mark[] = [{ kind: "glyph", code, x: hundredths(x), y: headY, scale: SCALE }];
  if (plain < 3840) marks.push({ kind: "line", x1: stem, y1: headY, x2: stem, y2: tip, width: STEM_WIDTH });
  const flag = SIGN.firstFlag + (plain <= 240 ? 2 : 0);
  if (plain <= 480) marks.push({ kind: "glyph", code: flag, x: hundredths(stem - STEM_WIDTH / 2), y: tip, scale: SCALE });
  if (dotted) marks.push({ kind: "glyph", code: SIGN.dot, x: hundredths(x + head + 2), y: headY, scale: SCALE });
  const after = x + head + 5 + (plain <= 480 || dotted ? 5 : 0);
  marks.push({ kind: "text", x: hundredths(after), y: hundredths(y), text: `= ${shownNumber(perMinute, 0)}`, ...FIGURE, anchor: "start" });
  return marks;
}
