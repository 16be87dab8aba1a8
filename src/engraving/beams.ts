import type { Clef } from "../ensemble/player.ts";
import type { BarSign } from "./bar-signs.ts";
import type { BeamGroup } from "./beam-groups.ts";
import { hundredths } from "./boxes.ts";
import { type Box, type Mark, STAFF_SPACE } from "./drawing.ts";
import { gracenoteY } from "./gracenotes.ts";
import type { Stem } from "./rooms.ts";
import { staffY } from "./signature.ts";
import { beamCount, middleLine, outward, outwardReach, STEM_WIDTH, type StemLine, stemTo, stemX } from "./stems.ts";

/*
 * One beam group. Heights are counted outwards, in the direction of the stems:
 *
 *      ●      ●          heads
 *      │  ▬▬▬▬│  inner   a 16th's beam; a single 16th has a stub
 *      ▬▬▬▬▬▬▬▬  outer   straight, a little sloped, or level where the heads in the middle stand out
 */

const THICKNESS = STAFF_SPACE / 2;

/** From one beam to the next: a quarter of a space between them. */
const STEP = 0.75 * STAFF_SPACE;

/** The shortest stem of a group, to its outer beam; a third beam makes it longer. */
const LENGTH = 3.25 * STAFF_SPACE;
const LENGTH_OF_MORE = STAFF_SPACE;

/** A beam rises by half of what its outer heads do, by no more than a space, and never steeply (common practice). */
const RISE = 0.5;
const MOST_RISE = STAFF_SPACE;
const STEEPEST = 0.18;

const STUB = 0.95 * STAFF_SPACE;

/** Between a beam and any ink it goes past. */
const CLEAR = 1.8;

/** How far gracenotes and accidentals reach from the middle of their head. */
const GRACENOTE = 2.4;
const ACCIDENTAL = 12.5;

/** A beam group drawn. */
export interface DrawnBeam {
  /** One for each sign of the group. */
  readonly stems: readonly StemLine[];
  readonly marks: readonly Mark[];
}

/** A group's stems and beams, clear of whatever ink stands between its stems. */
export function drawBeam(
  group: BeamGroup,
  signs: readonly BarSign[],
  xs: readonly number[],
  stem: Stem,
  clef: Clef,
  ink: readonly Box[],
): DrawnBeam {
  const inGroup = group.map((index) => signs[index] as BarSign);
  const stemXs = group.map((index) => stemX(signs[index] as BarSign, xs[index] as number, stem));
  const counts = inGroup.map(beamCount);
  const nears = inGroup.map((sign) => outwardReach(sign, stem, clef).near);
  const [left, right] = [stemXs[0] as number, stemXs.at(-1) as number];
  const slope = slopeOf(nears, right - left);
  // Heights are those of the outer edge of the outer beam, at the left end.
  let height = Number.NEGATIVE_INFINITY;
  for (const [place, near] of nears.entries()) {
    const rise = slope * ((stemXs[place] as number) - left);
    height = Math.max(height, near + lengthFor(counts[place] as number) - rise, middleLine(stem) - rise);
  }
  const stack = (Math.max(...counts) - 1) * STEP + THICKNESS;
  for (const box of ink) {
    const [from, to] = [Math.max(box.left - CLEAR, left), Math.min(box.right + CLEAR, right)];
    if (from > to) continue;
    const reach = (stem === "down" ? box.bottom : -box.top) + CLEAR;
    height = Math.max(height, reach + stack - Math.min(slope * (from - left), slope * (to - left)));
  }
  const heightAt = (x: number) => height + slope * (x - left);
  return {
    stems: group.map((index, place) =>
      stemTo(signs[index] as BarSign, xs[index] as number, stem, clef, heightAt(stemXs[place] as number) - THICKNESS / 3),
    ),
    marks: runsOf(inGroup, counts, stemXs).map(({ level, from, to }) => beamMark(from, to, (x) => heightAt(x) - level * STEP, stem)),
  };
}

/** How far a group reaches at most, counted outwards, wherever its heads stand. */
export function furthestTip(signs: readonly BarSign[], stem: Stem, clef: Clef): number {
  const counts = signs.map(beamCount);
  const nears = signs.map((sign) => outwardReach(sign, stem, clef).near);
  const rise = riseOf(nears);
  const stack = (Math.max(...counts) - 1) * STEP + THICKNESS;
  // Where the beam slopes, heads in the middle may push it outwards.
  const furthest = Math.max(...nears.map((near, place) => near + lengthFor(counts[place] as number))) + (nears.length > 2 ? rise : 0);
  const ink = signs
    .slice(1)
    .flatMap((sign) => [
      ...sign.gracenotes.map((note) => gracenoteY(note) + GRACENOTE),
      ...sign.heads.map(({ accidental }, place) =>
        accidental === null ? middleLine(stem) : outwardY(sign, place, stem, clef) + ACCIDENTAL,
      ),
    ]);
  return Math.max(middleLine(stem) + rise, furthest, ...ink.map((reach) => reach + CLEAR + stack + rise));
}

/** Outward height for each pixel to the right. */
function slopeOf(nears: readonly number[], width: number): number {
  const rise = Math.min(riseOf(nears), width * STEEPEST);
  return width <= 0 ? 0 : (Math.sign((nears.at(-1) as number) - (nears[0] as number)) * rise) / width;
}

/** How much a group rises or falls from end to end: not at all where an inner head stands out, or where the outer ones are alike. */
function riseOf(nears: readonly number[]): number {
  const [first, last] = [nears[0] as number, nears.at(-1) as number];
  if (nears.slice(1, -1).some((near) => near >= Math.max(first, last))) return 0;
  return Math.min(MOST_RISE, Math.abs(last - first) * RISE);
}

/** The shortest stem of a group for a sign under so many beams. */
function lengthFor(count: number): number {
  return LENGTH + (count === 3 ? LENGTH_OF_MORE : 0);
}

function outwardY({ heads }: BarSign, place: number, stem: Stem, clef: Clef): number {
  const { letter, octave } = (heads[place] as BarSign["heads"][number]).spelling;
  return outward(stem) * staffY(letter, octave, clef);
}

/** A beam from x to x, `level` beams inwards of the outer one. */
interface Run {
  readonly level: number;
  readonly from: number;
  readonly to: number;
}

function runsOf(signs: readonly BarSign[], counts: readonly number[], stemXs: readonly number[]): readonly Run[] {
  const half = STEM_WIDTH / 2;
  const runs: Run[] = [];
  for (let level = 0; level < Math.max(...counts); level += 1) {
    for (let place = 0; place < counts.length; place += 1) {
      if ((counts[place] as number) <= level) continue;
      let end = place;
      while ((counts[end + 1] ?? 0) > level) end += 1;
      const [from, to] = [stemXs[place] as number, stemXs[end] as number];
      if (end > place) runs.push({ level, from: from - half, to: to + half });
      else if (pointsLeft(signs, place))
        runs.push({ level, from: from - Math.min(STUB, (from - (stemXs[place - 1] as number)) / 2), to: to + half });
      else runs.push({ level, from: from - half, to: to + Math.min(STUB, ((stemXs[place + 1] as number) - to) / 2) });
      place = end;
    }
  }
  return runs;
}

/** Whether the stub of a short sign points to the one before it: it does where the two fill a longer value together. */
function pointsLeft(signs: readonly BarSign[], place: number): boolean {
  if (place === 0) return false;
  if (place === signs.length - 1) return true;
  const { at, value } = signs[place] as BarSign;
  return at % (2 * value.ticks) !== 0;
}

function beamMark(from: number, to: number, outer: (x: number) => number, stem: Stem): Mark {
  const [x1, x2] = [from, to].map(hundredths) as [number, number];
  const at = (x: number, inward: number) => hundredths(outward(stem) * (outer(x) - inward));
  return { kind: "path", d: `M${x1} ${at(x1, 0)}L${x2} ${at(x2, 0)}L${x2} ${at(x2, THICKNESS)}L${x1} ${at(x1, THICKNESS)}Z` };
}
