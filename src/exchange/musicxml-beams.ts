import { beamGroups } from "../engraving/beam-groups.ts";
import { beamCount } from "../engraving/stems.ts";
import type { Frame } from "../score/frame.ts";
import type { Sign } from "./musicxml-signs.ts";

/** What one beam does at one note. */
export type BeamStep = "begin" | "continue" | "end" | "forward hook" | "backward hook";

/** Indexes of neighbouring signs that share a beam, two at least, in order: as they are engraved, but that none reaches over a tuplet's edge. */
export function beamedTogether(signs: readonly Sign[], frame: Frame): readonly (readonly number[])[] {
  return beamGroups(signs, frame)
    .flatMap((group) => partedAtTuplets(group, signs))
    .filter((group) => group.length > 1);
}

/** Some readers count a plain note as one of the tuplet when one beam holds both. */
function partedAtTuplets(group: readonly number[], signs: readonly Sign[]): readonly (readonly number[])[] {
  const parts: number[][] = [];
  for (const index of group) {
    if (parts.length === 0 || signs[index]?.opensTuplet || signs[index - 1]?.closesTuplet) parts.push([]);
    parts.at(-1)?.push(index);
  }
  return parts;
}

/** For each note of a beamed group, what each of its beams does, the outermost first. */
export function beamSteps(group: readonly Sign[]): readonly (readonly BeamStep[])[] {
  const from = group[0]?.at ?? 0;
  return group.map((sign, index) =>
    Array.from({ length: beamCount(sign) }, (_, level) => {
      const reaches = (other: Sign | undefined) => other !== undefined && beamCount(other) > level;
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
