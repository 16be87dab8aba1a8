import { playerOf } from "../ensemble/catalogue.ts";
import type { Line, Score } from "../score/score.ts";
import { staffGroup } from "./bar-lines.ts";
import { boxAround, groupOf, hundredths } from "./boxes.ts";
import type { BarDrawing, MarkGroup } from "./drawing.ts";
import { writtenKey } from "./part-facts.ts";
import { clefStrip, meterStrip, type Strip, signatureStrip } from "./signature.ts";

const BEFORE_CLEF = 3;
const AFTER_EACH = 4;

const kept = new Map<string, BarDrawing>();

/**
 * What stands at the head of a staff: clef, signature (none for the pipes), and the meter where it is wanted. As wide as it needs, or wider if asked:
 * the staff then begins further left of the clef's end, the signs staying at its beginning.
 */
export function headDrawing(score: Score, line: Line, bar: number, meterShown: boolean, least = 0): BarDrawing {
  const frame = score.frames[bar];
  if (frame === undefined) throw new RangeError(`There is no bar ${bar} among ${score.frames.length}.`);
  const clef = line.kind === "pipes" ? "treble" : playerOf(line.player).clef;
  const key = line.kind === "pipes" ? null : writtenKey(line, frame);
  const meter = meterShown ? frame.meter : null;
  const name = JSON.stringify([clef, key, meter, least]);
  const found = kept.get(name);
  if (found !== undefined) return found;
  const strips: Strip[] = [];
  let x = BEFORE_CLEF;
  const add = (strip: Strip) => {
    if (strip.marks.length === 0) return;
    strips.push(strip);
    x += strip.width + AFTER_EACH;
  };
  add(clefStrip(clef, x));
  if (key !== null) add(signatureStrip(key, null, clef, x));
  if (meter !== null) add(meterStrip(meter, x));
  const width = hundredths(Math.max(x, least));
  const groups: MarkGroup[] = [staffGroup(0, width), ...strips.map(({ marks }) => groupOf("signature", null, marks))];
  const drawing = { width, groups, box: boxAround(groups.map(({ box }) => box)) };
  if (kept.size > 200) kept.clear();
  kept.set(name, drawing);
  return drawing;
}
