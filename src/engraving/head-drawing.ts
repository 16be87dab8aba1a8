import { playerOf } from "../ensemble/catalogue.ts";
import { fifthsOf } from "../pitch/key-signature.ts";
import { barNumber } from "../score/bar-number.ts";
import type { Meter } from "../score/frame.ts";
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

/** From the bar line to a signature that announces the next line's. */
const BEFORE_COURTESY = 4;

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

/**
 * The end of a line of staff after whose last bar key or meter change: the new signature, so that nobody is surprised at the next line. Null where
 * nothing changes, and before another tune, which says everything anew.
 */
export function courtesyDrawing(score: Score, line: Line, bar: number): BarDrawing | null {
  const [frame, next] = [score.frames[bar], score.frames[bar + 1]];
  if (frame === undefined || next === undefined || next.tune !== null) return null;
  const clef = line.kind === "pipes" ? "treble" : playerOf(line.player).clef;
  const [key, nextKey] = line.kind === "pipes" ? [null, null] : [writtenKey(line, frame), writtenKey(line, next)];
  const strips: Strip[] = [];
  let x = BEFORE_COURTESY;
  const add = (strip: Strip) => {
    strips.push(strip);
    x += strip.width + AFTER_EACH;
  };
  if (key !== null && nextKey !== null && fifthsOf(key) !== fifthsOf(nextKey)) add(signatureStrip(nextKey, key, clef, x));
  if (!sameMeter(frame.meter, next.meter)) add(meterStrip(next.meter, x));
  if (strips.length === 0) return null;
  const width = hundredths(x);
  const groups = [staffGroup(0, width), ...strips.map(({ marks }) => groupOf("signature", null, marks))];
  return { width, groups, box: boxAround(groups.map(({ box }) => box)) };
}

/** What the head of a line of staff on a page shows: its meter where it is new, its number unless it is the first. */
export function pageHead(score: Score, line: Line, first: number): BarDrawing {
  const [before, now] = [score.frames[first - 1], score.frames[first]];
  const meter = before === undefined || now === undefined || now.tune !== null || !sameMeter(before.meter, now.meter);
  return headDrawing(score, line, first, { meter, number: first > 0 });
}

function sameMeter(one: Meter, other: Meter): boolean {
  return one.beats === other.beats && one.unit === other.unit;
}
