import type { LineEvent } from "../score/like-events.ts";
import { tupletGroups } from "../score/tuplet-groups.ts";
import type { BarSign } from "./bar-signs.ts";
import type { BeamGroup } from "./beam-groups.ts";
import { boxAround, groupOf, hundredths } from "./boxes.ts";
import { type Box, type Mark, type MarkGroup, STAFF_HEIGHT } from "./drawing.ts";
import { GLYPH_UNIT, glyphOf, glyphWidth, SIGN } from "./glyph-table.ts";
import type { Stem } from "./rooms.ts";

const FIGURE_SCALE = 0.8;
const CLEAR = 3;
const HOOK = 4;

/** How far a figure reaches beyond the notes that it belongs to. */
export const TUPLET_REACH = CLEAR + 10;

/** Figures over (or under, on the side of the stems) triplets and duplets, with a bracket where no single beam shows what belongs together. */
export function tupletMarks(
  events: readonly LineEvent[],
  signs: readonly BarSign[],
  drawn: readonly Box[],
  beams: readonly BeamGroup[],
  stems: readonly Stem[],
): readonly MarkGroup[] {
  return tupletGroups({ events } as Parameters<typeof tupletGroups>[0]).flatMap(({ tuplet, first, count, from }) => {
    const inside = signs.flatMap((sign, index) => (sign.event >= first && sign.event < first + count ? [index] : []));
    if (inside.length === 0) return [];
    const up = inside.filter((index) => stems[index] === "up").length * 2 > inside.length;
    const box = boxAround(inside.map((index) => drawn[index] as Box));
    const oneBeam = beams.some((beam) => beam.length === inside.length && beam.every((index) => inside.includes(index)));
    const code = SIGN.tuplet[tuplet];
    const width = glyphWidth(code) * FIGURE_SCALE;
    const height = -glyphOf(code).box[1] * GLYPH_UNIT * FIGURE_SCALE;
    const middle = (box.left + box.right) / 2;
    const bottom = up ? Math.min(box.top - CLEAR, -CLEAR) : Math.max(box.bottom + CLEAR, STAFF_HEIGHT + CLEAR) + height;
    const marks: Mark[] = [{ kind: "glyph", code, x: hundredths(middle - width / 2), y: hundredths(bottom), scale: FIGURE_SCALE }];
    if (!oneBeam) marks.push(...bracket(box, middle, width, bottom - height / 2, up ? HOOK : -HOOK));
    return [groupOf("tuplet", from, marks)];
  });
}

/** Two halves of a bracket with the figure between them; the hooks point to the notes. */
function bracket(box: Box, middle: number, figure: number, height: number, hook: number): readonly Mark[] {
  const y = hundredths(height);
  const half = (outer: number, inner: number): readonly Mark[] => [
    { kind: "line", x1: hundredths(outer), y1: hundredths(height + hook), x2: hundredths(outer), y2: y, width: 0.8 },
    { kind: "line", x1: hundredths(Math.min(outer, inner)), y1: y, x2: hundredths(Math.max(outer, inner)), y2: y, width: 0.8 },
  ];
  return [...half(box.left, middle - figure / 2 - 2), ...half(box.right, middle + figure / 2 + 2)];
}
