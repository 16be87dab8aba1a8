import type { Ticks } from "../units/ticks.ts";
import type { BarContext, PlacedWords } from "./bar-context.ts";
import { headingMarks, headingWidth } from "./bar-heading.ts";
import type { BarSign } from "./bar-signs.ts";
import { groupOf, hundredths } from "./boxes.ts";
import type { Face, Mark, MarkGroup, MarkRole, TextMark } from "./drawing.ts";
import { CHART_HEIGHT, CHART_WIDTH, holeChart, holeColumn } from "./hole-chart.ts";
import { articulationWords, CHORD_TYPE, DIRECTION_TYPE, headWidth, SYLLABLE_SIZE, VERSE_STEP } from "./rooms.ts";
import type { Skyline } from "./skyline.ts";
import { textWidth } from "./text-width.ts";

/*
 * What stands above and below the staff, each row clear of the ink under it:
 *
 *    1.───────────┐   ending
 *    Verse  ♩ = 96    section, tempo (pages)
 *    E      C♯m       chords (pages)
 *    with the pipes   directions; strike-in, cut-off
 *    ○ ●●● ●●●○       hole chart
 *    ═══════════════  staff
 *    ○      ●         charts of every note, upright
 *    la-    la        syllables
 */

/** Least distance of anything from the ink under it. */
const CLEAR = 4;

/** Of the baseline of a heading. */
export const OVER_INK = CLEAR + 2;

/** Rows keep one height where no ink forbids it, so that neighbours line up. Baselines, desk pixels above the staff. */
const DIRECTION_BASELINE = -9;

const WORDS = DIRECTION_TYPE;
const SYLLABLE = { face: "serif", weight: 400, size: SYLLABLE_SIZE } as const;

/** A syllable begins a little left of its head. */
const SYLLABLE_SHIFT = 1;

/** Where a bar's signs stand: `xs` are the left edges of the heads. */
export interface PlacedSigns {
  readonly signs: readonly BarSign[];
  readonly xs: readonly number[];
  readonly context: BarContext;
}

/** Everything above the staff, from the notes upwards. Each group is added to the skyline as it is put. */
export function groupsAbove(placed: PlacedSigns, sky: Skyline): readonly MarkGroup[] {
  const groups: MarkGroup[] = [];
  const put = (group: MarkGroup | null) => {
    if (group === null) return;
    sky.add(group.box);
    groups.push(group);
  };
  const isOver = placed.context.charts === "cross-fingered";
  for (const [index, sign] of placed.signs.entries())
    if (isOver) put(chartGroup(sign, placed.xs[index] as number, placed.context.width, sky));
  for (const [index, sign] of placed.signs.entries()) put(articulationGroup(sign, placed.xs[index] as number, placed.context, sky));
  put(directionGroup(placed.context, sky));
  for (const chord of placed.context.chords) put(chordGroup(chord, xOfMoment(placed, chord.at), placed.context, sky));
  put(headingGroup(placed.context, sky));
  put(endingGroup(placed.context, sky));
  return groups;
}

/** The charts of every note, upright under their heads, all beginning at one height. */
export function chartGroupsBelow({ signs, xs, context }: PlacedSigns, sky: Skyline): readonly MarkGroup[] {
  if (context.charts === "cross-fingered" || signs.every(({ holes }) => holes === null)) return [];
  const top = Math.max(context.chartTop, sky.bottomUnder(0, context.width, 0) + CLEAR);
  const groups = signs.flatMap((sign, index) => {
    if (sign.holes === null) return [];
    return [groupOf("holes", sign.eventAt, holeColumn(sign.holes, (xs[index] as number) + headWidth(sign) / 2, top))];
  });
  // Words keep further away from holes than from stems.
  for (const { box } of groups) sky.add({ ...box, bottom: box.bottom + CLEAR });
  return groups;
}

/** The syllables under the staff, one row for each verse. */
export function syllableGroups({ signs, xs, context }: PlacedSigns, sky: Skyline): readonly MarkGroup[] {
  const sung = signs.flatMap((sign, index) => (sign.syllables.length > 0 ? [{ sign, x: xs[index] as number }] : []));
  if (sung.length === 0) return [];
  const { syllableBaseline, spacing, width } = context;
  const lowest = spacing === "desk" ? syllableBaseline : Math.max(syllableBaseline, sky.bottomUnder(0, width, 0) + SYLLABLE_SIZE);
  return sung.map(({ sign, x }, place) =>
    groupOf(
      "syllable",
      sign.eventAt,
      sign.syllables.flatMap((syllable, verse): readonly Mark[] => {
        const left = x - SYLLABLE_SHIFT;
        const y = lowest + verse * VERSE_STEP;
        const word = text(syllable.text, left, y, SYLLABLE);
        if (!syllable.hyphen) return [word];
        const next = sung.slice(place + 1).find((one) => one.sign.syllables[verse] !== undefined);
        const hyphen = hyphenMark(left + widthOf(syllable.text), next === undefined ? width : next.x - SYLLABLE_SHIFT, y);
        return hyphen === null ? [word] : [word, hyphen];
      }),
    ),
  );
}

/** A hyphen in the middle of the gap between two syllables, or of what the bar leaves after its last; none where the gap is too narrow. */
function hyphenMark(from: number, to: number, y: number): TextMark | null {
  return to - from < widthOf("-") ? null : text("-", (from + to) / 2, y, SYLLABLE, "middle");
}

function widthOf(syllable: string): number {
  return textWidth(syllable, SYLLABLE.face, SYLLABLE.weight, SYLLABLE.size);
}

function chartGroup(sign: BarSign, x: number, barWidth: number, sky: Skyline): MarkGroup | null {
  if (sign.holes === null) return null;
  const left = Math.max(2, Math.min(x, barWidth - CHART_WIDTH - 3));
  const bottom = sky.topOver(left - 1, left + CHART_WIDTH + 1, -3) - CLEAR;
  return groupOf("holes", sign.eventAt, holeChart(sign.holes, left, bottom - CHART_HEIGHT / 2));
}

function articulationGroup(sign: BarSign, x: number, { width }: BarContext, sky: Skyline): MarkGroup | null {
  const words = articulationWords(sign);
  if (words === "") return null;
  const wide = textWidth(words, WORDS.face, WORDS.weight, WORDS.size);
  // A strike-in begins with its note; a cut-off ends where its note ends, which is left of whatever follows.
  const left = Math.max(2, Math.min(sign.strikeIn ? x : x + 10, width - wide - 3));
  return wordsGroup("words", sign.eventAt, words, left, DIRECTION_BASELINE, sky, WORDS);
}

function directionGroup({ directions }: BarContext, sky: Skyline): MarkGroup | null {
  return directions === "" ? null : wordsGroup("words", null, directions, 3, DIRECTION_BASELINE, sky, WORDS);
}

function chordGroup({ text: symbol, at }: PlacedWords, x: number, { width: barWidth, chordBaseline }: BarContext, sky: Skyline): MarkGroup {
  const width = textWidth(symbol, CHORD_TYPE.face, CHORD_TYPE.weight, CHORD_TYPE.size);
  return wordsGroup("chord", at, symbol, Math.max(2, Math.min(x, barWidth - width - 2)), chordBaseline, sky, CHORD_TYPE);
}

function headingGroup(context: BarContext, sky: Skyline): MarkGroup | null {
  const width = headingWidth(context);
  if (width === 0) return null;
  const y = Math.min(context.headingBaseline, sky.topOver(0, width, 0) - OVER_INK);
  return groupOf("words", null, headingMarks(context, y));
}

function endingGroup({ ending, width, endingTop }: BarContext, sky: Skyline): MarkGroup | null {
  if (ending === null) return null;
  const left = ending.opens ? 1 : 0;
  const right = width - (ending.closes ? 2 : 0);
  const top = hundredths(Math.min(endingTop, sky.topOver(left, right, 0) - CLEAR - 13));
  const hook = hundredths(top + 13);
  const marks: Mark[] = [{ kind: "line", x1: left, y1: top, x2: hundredths(right), y2: top, width: 1 }];
  if (ending.opens) {
    marks.push({ kind: "line", x1: left, y1: top, x2: left, y2: hook, width: 1 });
    marks.push(text(`${ending.number}.`, left + 5, top + 12, { face: "serif", weight: 400, size: 13 }));
  }
  if (ending.closes) marks.push({ kind: "line", x1: hundredths(right), y1: top, x2: hundredths(right), y2: hook, width: 1 });
  return groupOf("ending", null, marks);
}

function wordsGroup(
  role: MarkRole,
  at: Ticks | null,
  words: string,
  left: number,
  baseline: number,
  sky: Skyline,
  type: { readonly face: Face; readonly weight: 400 | 600; readonly size: number },
): MarkGroup {
  const width = textWidth(words, type.face, type.weight, type.size);
  const y = Math.min(baseline, sky.topOver(left - 2, left + width + 2, 0) - CLEAR);
  return groupOf(role, at, [text(words, left, y, type)]);
}

function text(
  words: string,
  x: number,
  y: number,
  { face, weight, size }: { readonly face: Face; readonly weight: 400 | 600; readonly size: number },
  anchor: TextMark["anchor"] = "start",
): TextMark {
  return { kind: "text", x: hundredths(x), y: hundredths(y), text: words, face, weight, size, anchor };
}

/** Where a moment stands: at the head that begins then, or in proportion between its neighbours. */
function xOfMoment({ signs, xs, context }: PlacedSigns, at: Ticks): number {
  let [beforeAt, beforeX] = [0, xs[0] ?? 3];
  for (const [index, sign] of signs.entries()) {
    const x = xs[index] as number;
    if (sign.wholeBar) break;
    if (sign.at === at) return x;
    if (sign.at > at) return beforeX + ((x - beforeX) * (at - beforeAt)) / (sign.at - beforeAt);
    [beforeAt, beforeX] = [sign.at, x];
  }
  const last = signs.at(-1);
  const end = last === undefined ? 0 : last.at + last.value.ticks;
  const from = last?.wholeBar ? 3 : beforeX;
  return end > beforeAt ? from + ((context.width - from) * (at - beforeAt)) / (end - beforeAt) : from;
}
