import type { BarContext } from "./bar-context.ts";
import { groupOf, hundredths } from "./boxes.ts";
import { type Mark, type MarkGroup, STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { AFTER_BAR_LINE, clefOf } from "./rooms.ts";
import { meterStrip, signatureStrip } from "./signature.ts";

const THIN = 1;
const THICK = 3;
const STAFF_LINE = 0.8;

/** The five lines, from x to x. */
export function staffGroup(left: number, right: number): MarkGroup {
  const marks = [0, 1, 2, 3, 4].map((line): Mark => {
    const y = line * STAFF_SPACE;
    return { kind: "line", x1: hundredths(left), y1: y, x2: hundredths(right), y2: y, width: STAFF_LINE };
  });
  return groupOf("staff", null, marks);
}

/** The bar line or repeat sign that the bar ends with. */
export function closingGroup({ closing, width }: Pick<BarContext, "closing" | "width">): MarkGroup {
  const edge = width;
  switch (closing) {
    case "plain":
      return groupOf("bar-line", null, [upright(edge, THIN)]);
    case "double":
      return groupOf("bar-line", null, [upright(edge - 3, THIN), upright(edge, THIN)]);
    case "final":
      return groupOf("bar-line", null, [upright(edge - 5, THIN), upright(edge - THICK / 2, THICK)]);
    case "repeat":
      return groupOf("bar-line", null, [...repeatDots(edge - 10), upright(edge - 5.5, THIN), upright(edge - THICK / 2, THICK)]);
  }
}

/** Whatever stands between the bar line and the first note: a new signature, a new meter, a repeat sign. */
export function openingGroups(context: BarContext): readonly MarkGroup[] {
  const groups: MarkGroup[] = [];
  let x = AFTER_BAR_LINE;
  const add = (strip: { readonly marks: readonly Mark[]; readonly width: number }) => {
    if (strip.marks.length > 0) groups.push(groupOf("signature", null, strip.marks));
    x += strip.width + 4;
  };
  if (context.keyBefore !== null) add(signatureStrip(context.key, context.keyBefore, clefOf(context), x + 1));
  if (context.meterShown) add(meterStrip(context.meter, x + 1));
  if (context.opening === "repeat") {
    const left = x > AFTER_BAR_LINE ? x : 0;
    groups.push(groupOf("bar-line", null, [upright(left + THICK / 2, THICK), upright(left + 5.5, THIN), ...repeatDots(left + 8)]));
  }
  return groups;
}

function repeatDots(left: number): readonly Mark[] {
  const width = glyphWidth(SIGN.dot);
  return [1.5, 2.5].map((line) => ({
    kind: "glyph",
    code: SIGN.dot,
    x: hundredths(left - width / 2 + 1.4),
    y: line * STAFF_SPACE,
    scale: 0.9,
  }));
}

/** The ends reach to the outer edges of the outer lines. */
function upright(x: number, width: number): Mark {
  return { kind: "line", x1: hundredths(x), y1: -STAFF_LINE / 2, x2: hundredths(x), y2: STAFF_HEIGHT + STAFF_LINE / 2, width };
}
