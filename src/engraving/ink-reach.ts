import type { LineEvent } from "../score/like-events.ts";
import type { BarContext } from "./bar-context.ts";
import { barSigns } from "./bar-signs.ts";
import { beamGroups } from "./beam-groups.ts";
import { furthestTip } from "./beams.ts";
import { STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { gracenotesTop } from "./gracenotes.ts";
import { CHART_HEIGHT } from "./hole-chart.ts";
import { clefOf, stemsOf } from "./rooms.ts";
import { staffY } from "./signature.ts";
import { beamCount, outward, singleStem } from "./stems.ts";
import { TIE_REACH } from "./ties.ts";
import { TUPLET_REACH } from "./tuplet-marks.ts";

/** How far ink may reach over the top line of the staff and under its bottom line, desk pixels; never negative. */
export interface InkReach {
  readonly over: number;
  readonly under: number;
}

/** A flat, from the middle of its head; other accidentals reach less far. */
const ACCIDENTAL = 12.5;
const HEAD = 3.5;

/** The innermost flag of a 32nd sticks out beyond its stem. */
const OUTER_FLAG = 5;

/** Over the staff a chart stands so far from the ink under it. */
const BETWEEN = 4;

/** The most that the notes of a bar can reach, whatever its width: nothing is engraved for it. Words, chords and syllables are not counted. */
export function inkReach(events: readonly LineEvent[], context: BarContext): InkReach {
  const signs = barSigns(events, context);
  const beams = beamGroups(signs, context);
  const stems = stemsOf(signs, beams, context);
  const clef = clefOf(context);
  const beamed = new Set(beams.flat());
  let [top, bottom] = [0, STAFF_HEIGHT];
  const holds = (y: number) => {
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  };
  // The first sharp of a signature, or the natural that takes it back, stands in the space over the staff.
  if (context.keyBefore !== null) holds(-STAFF_SPACE / 2 - ACCIDENTAL);
  for (const [index, sign] of signs.entries()) {
    const stem = stems[index] ?? "down";
    for (const { spelling, accidental } of sign.heads) {
      const y = staffY(spelling.letter, spelling.octave, clef);
      const reach = accidental === null ? HEAD : ACCIDENTAL;
      holds(y - reach);
      holds(y + reach);
      if (sign.tied || (index === 0 && context.tieIn)) {
        holds(y - TIE_REACH);
        holds(y + TIE_REACH);
      }
    }
    if (sign.gracenotes.length > 0) holds(gracenotesTop(sign.gracenotes));
    if (sign.heads.length > 0 && sign.value.base > 1 && !beamed.has(index)) {
      const { tip } = singleStem(sign, 0, stem, clef);
      holds(tip + outward(stem) * (beamCount(sign) === 3 ? OUTER_FLAG : 0));
    }
  }
  for (const group of beams) {
    const stem = stems[group[0] ?? 0] ?? "down";
    const inGroup = group.flatMap((index) => signs[index] ?? []);
    holds(outward(stem) * furthestTip(inGroup, stem, clef));
  }
  const tuplet = signs.some(({ value }) => value.tuplet !== null) ? TUPLET_REACH : 0;
  // Where bars are narrow, charts that would meet stand over each other.
  const charts = signs.filter(({ holes }) => holes !== null).length * (CHART_HEIGHT + BETWEEN);
  return { over: -top + tuplet + charts, under: bottom - STAFF_HEIGHT + tuplet };
}
