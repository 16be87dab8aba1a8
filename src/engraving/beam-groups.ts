import type { Frame } from "../score/frame.ts";
import { beamGroupsOf, meterOffset } from "../score/meter.ts";
import type { BarContext } from "./bar-context.ts";
import type { BarSign } from "./bar-signs.ts";

/** Places in the list of signs that stand under one beam, two or more, in order. */
export type BeamGroup = readonly number[];

/** Which signs are beamed together: eighths and shorter side by side within one group of the meter, no rest between them. */
export function beamGroups(signs: readonly BarSign[], context: Pick<BarContext, "meter" | "short">): readonly BeamGroup[] {
  const frame = context as Pick<Frame, "meter" | "short"> as Frame;
  const ends = groupEnds(frame);
  const groups: number[][] = [];
  let current: number[] = [];
  let currentEnd = -1;
  for (const [index, sign] of signs.entries()) {
    const end = ends.find((edge) => edge > sign.at) ?? Number.POSITIVE_INFINITY;
    const beamable = sign.heads.length > 0 && sign.value.base >= 8;
    if (!beamable || end !== currentEnd) current = [];
    if (!beamable) continue;
    if (current.length === 0) groups.push(current);
    current.push(index);
    currentEnd = end;
  }
  return groups.filter((group) => group.length > 1);
}

/** Where the meter's groups end, in ticks from the start of this bar. */
function groupEnds(frame: Frame): readonly number[] {
  let end = -meterOffset(frame);
  return beamGroupsOf(frame.meter).map((length) => (end += length));
}
