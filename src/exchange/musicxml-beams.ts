import type { Frame } from "../score/frame.ts";
import { beamGroupsOf, meterOffset } from "../score/meter.ts";
import type { Sign } from "./musicxml-signs.ts";

/** What one beam does at one note. */
export type BeamStep = "begin" | "continue" | "end" | "forward hook" | "backward hook";

/** How many beams (or flags) a note value has. */
export function beamCount(base: number): number {
  return base < 8 ? 0 : Math.log2(base) - 2;
}

/** Indexes of neighbouring signs that share a beam, two at least, in order. A rest, a longer note, the edge of a beat and that of a tuplet part them. */
export function beamedTogether(signs: readonly Sign[], frame: Frame): readonly (readonly number[])[] {
  const groups: number[][] = [];
  let openWindow: number | null = null;
  for (const [index, sign] of signs.entries()) {
    const isBeamed = sign.pitches.length > 0 && beamCount(sign.value.base) > 0;
    const window = isBeamed ? windowAt(sign.at, frame) : null;
    const atTuplet = sign.opensTuplet || signs[index - 1]?.closesTuplet;
    if (isBeamed && window === openWindow && !atTuplet) groups.at(-1)?.push(index);
    else if (isBeamed) groups.push([index]);
    openWindow = window;
  }
  return groups.filter((group) => group.length > 1);
}

/** For each note of a beamed group, what each of its beams does, the outermost first. */
export function beamSteps(group: readonly Sign[]): readonly (readonly BeamStep[])[] {
  const from = group[0]?.at ?? 0;
  return group.map((sign, index) =>
    Array.from({ length: beamCount(sign.value.base) }, (_, level) => {
      const reaches = (other: Sign | undefined) => other !== undefined && beamCount(other.value.base) > level;
      const [before, after] = [reaches(group[index - 1]), reaches(group[index + 1])];
      if (before && after) return "continue";
      if (before) return "end";
      if (after) return "begin";
      return pointsForward(group, index, sign.at - from) ? "forward hook" : "backward hook";
    }),
  );
}

/** A lone short beam points into the pair it makes up: forward at the start of the pair, backward at its end. */
function pointsForward(group: readonly Sign[], index: number, since: number): boolean {
  if (index === 0) return true;
  if (index === group.length - 1) return false;
  return since % ((group[index]?.value.ticks ?? 1) * 2) === 0;
}

/** Which of the meter's beam groups a moment falls in; -1 past its end. */
function windowAt(at: number, frame: Frame): number {
  const moment = at + meterOffset(frame);
  let edge = 0;
  for (const [window, length] of beamGroupsOf(frame.meter).entries()) {
    edge += length;
    if (moment < edge) return window;
  }
  return -1;
}
