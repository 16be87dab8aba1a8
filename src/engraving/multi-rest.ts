import { barNumber } from "../score/bar-number.ts";
import type { BarRange } from "../score/edit.ts";
import type { Line, Score } from "../score/score.ts";
import { groupsAbove } from "./around-staff.ts";
import { isBagUp } from "./bag-up.ts";
import type { BarContext } from "./bar-context.ts";
import { closingGroup, openingGroups, staffGroup } from "./bar-lines.ts";
import { boxAround, groupOf, hundredths } from "./boxes.ts";
import { type BarDrawing, type Mark, type MarkGroup, STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { type BarPlace, barContextOf } from "./part-facts.ts";
import { CLOSING_ROOM, openingRoom, wordsRoom } from "./rooms.ts";
import { Skyline } from "./skyline.ts";

/*
 *        12          so many bars
 *   ─────────────
 *   ┃▄▄▄▄▄▄▄▄▄▄▄┃    two spaces tall, on the middle line
 *   ─────────────
 */

const THICKNESS = 5;
const END_WIDTH = 1.4;
/** From a bar line to the rest. */
const AIR = 7;
/** How long the rest is by itself, and when pressed. */
const LENGTH = { natural: 84, pressed: 56 };
const NUMBER_Y = -STAFF_SPACE - 4;
const OVER_NUMBER = 5;

const kept = new Map<string, BarDrawing>();

/** What a multi-bar rest depends on: what its first bar opens with and its last closes with. */
export function multiRestContext(score: Score, line: Line, { first, last }: BarRange, place: BarPlace): BarContext {
  const [opening, closing] = [barContextOf(score, line, first, place), barContextOf(score, line, last, place)];
  const ending = opening.ending === null ? null : { ...opening.ending, closes: closing.ending?.closes ?? false };
  const directions = line.kind === "pipes" && isBagUp(line, last) ? `bag up in bar ${barNumber(score, last)}` : opening.directions;
  return { ...opening, closing: closing.closing, ending, directions, chords: [], chartsBefore: [], altersBefore: {} };
}

/** How wide it is when nothing stretches or presses it, and how narrow it may be. */
export function multiRestWidths(context: BarContext): { readonly natural: number; readonly pressed: number } {
  const around = openingRoom(context) + CLOSING_ROOM[context.closing] + 2 * AIR;
  const words = wordsRoom([], context);
  return { natural: Math.max(around + LENGTH.natural, words), pressed: Math.max(around + LENGTH.pressed, words) };
}

/** So many silent bars as one rest with their number over it. */
export function multiRest(bars: number, context: BarContext): BarDrawing {
  const name = `${bars} ${JSON.stringify(context)}`;
  const found = kept.get(name);
  if (found !== undefined) return found;
  const groups: MarkGroup[] = [staffGroup(0, context.width), ...openingGroups(context)];
  const sky = new Skyline();
  for (const group of groups) if (group.role === "signature") sky.add(group.box);
  const rest = groupOf("rest", null, restMarks(bars, context));
  // The number is read first, so words keep further away from it than from notes.
  sky.add({ ...rest.box, top: rest.box.top - OVER_NUMBER });
  groups.push(rest, ...groupsAbove({ signs: [], xs: [], context }, sky), closingGroup(context));
  const drawing = { width: context.width, groups, box: boxAround(groups.map(({ box }) => box)) };
  if (kept.size > 200) kept.clear();
  kept.set(name, drawing);
  return drawing;
}

function restMarks(bars: number, context: BarContext): readonly Mark[] {
  const left = hundredths(openingRoom(context) + AIR);
  const right = hundredths(context.width - CLOSING_ROOM[context.closing] - AIR);
  const middle = STAFF_HEIGHT / 2;
  const [top, bottom, upper, lower] = [middle - STAFF_SPACE, middle + STAFF_SPACE, middle - THICKNESS / 2, middle + THICKNESS / 2];
  const [inLeft, inRight] = [hundredths(left + END_WIDTH), hundredths(right - END_WIDTH)];
  const shape = [
    ...[`${left} ${top}`, `${left} ${bottom}`, `${inLeft} ${bottom}`, `${inLeft} ${lower}`],
    ...[`${inRight} ${lower}`, `${inRight} ${bottom}`, `${right} ${bottom}`, `${right} ${top}`],
    ...[`${inRight} ${top}`, `${inRight} ${upper}`, `${inLeft} ${upper}`, `${inLeft} ${top}`],
  ];
  return [{ kind: "path", d: `M${shape.join("L")}Z` }, ...numberMarks(bars, (left + right) / 2)];
}

function numberMarks(bars: number, middle: number): readonly Mark[] {
  const codes = [...String(bars)].map((figure) => SIGN.meterFigure + Number(figure));
  let x = middle - codes.reduce((sum, code) => sum + glyphWidth(code), 0) / 2;
  return codes.map((code): Mark => {
    const mark: Mark = { kind: "glyph", code, x: hundredths(x), y: NUMBER_Y, scale: 1 };
    x += glyphWidth(code);
    return mark;
  });
}
