import { playerOf } from "../ensemble/catalogue.ts";
import { barNumber } from "../score/bar-number.ts";
import type { Line, Score } from "../score/score.ts";
import { staffGroup } from "./bar-lines.ts";
import { boxAround, groupOf, hundredths } from "./boxes.ts";
import type { BarDrawing, MarkGroup } from "./drawing.ts";
import { writtenKey } from "./part-facts.ts";
import { clefStrip, meterStrip, type Strip, signatureStrip } from "./signature.ts";

const BEFORE_CLEF = 3;
const AFTER_EACH = 4;

/** Over the top of the treble clef. */
const NUMBER_BASELINE = -13;

const kept = new Map<string, BarDrawing>();

/** What a head shows besides clef and signature. */
export interface HeadOptions {
  readonly meter: boolean;
  /** The number of the bar, over the clef. */
  readonly number: boolean;
  /** The staff is at least so wide, in desk pixels; the signs stay at its beginning. */
  readonly least?: number;
}

/** What stands at the head of a staff before a bar: clef, signature (none for the pipes), and what is asked for. */
export function headDrawing(score: Score, line: Line, bar: number, options: HeadOptions): BarDrawing {
  const frame = score.frames[bar];
  if (frame === undefined) throw new RangeError(`There is no bar ${bar} among ${score.frames.length}.`);
  const clef = line.kind === "pipes" ? "treble" : playerOf(line.player).clef;
  const key = line.kind === "pipes" ? null : writtenKey(line, frame);
  const meter = options.meter ? frame.meter : null;
  const number = options.number ? String(barNumber(score, bar)) : "";
  const name = JSON.stringify([clef, key, meter, number, options.least]);
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
  const width = hundredths(Math.max(x, options.least ?? 0));
  const groups: MarkGroup[] = [staffGroup(0, width), ...strips.map(({ marks }) => groupOf("signature", null, marks))];
  if (number !== "") {
    groups.push(
      groupOf("furniture", null, [
        { kind: "text", x: 0, y: NUMBER_BASELINE, text: number, face: "sans", weight: 400, size: 11, anchor: "start" },
      ]),
    );
  }
  const drawing = { width, groups, box: boxAround(groups.map(({ box }) => box)) };
  if (kept.size > 200) kept.clear();
  kept.set(name, drawing);
  return drawing;
}
