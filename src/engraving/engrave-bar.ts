import type { LineEvent } from "../score/like-events.ts";
import { groupsAbove, syllableGroups } from "./around-staff.ts";
import type { BarContext } from "./bar-context.ts";
import { closingGroup, openingGroups, staffGroup } from "./bar-lines.ts";
import { type BarSign, barSigns } from "./bar-signs.ts";
import { beamGroups } from "./beam-groups.ts";
import { boxAround, groupOf } from "./boxes.ts";
import { drawNotes, drawRest } from "./draw-notes.ts";
import { type BarDrawing, type Box, type Mark, type MarkGroup, STAFF_SPACE } from "./drawing.ts";
import { gracenoteMarks } from "./gracenotes.ts";
import { placedOnDesk, placedOnPage, spacingOf } from "./placing.ts";
import { clefOf, headWidth, type Stem, stemsOf, topY } from "./rooms.ts";
import { staffY } from "./signature.ts";
import { Skyline } from "./skyline.ts";
import { tieMark } from "./ties.ts";
import { tupletMarks } from "./tuplet-marks.ts";

/** Drawings of one bar kept at once: on the desk, on a phone, on two sizes of page, and one step of undo. */
const KEPT = 12;

/** Weak, since undo keeps the bars of every step: who shows a drawing holds it; one that nobody shows may go, and is made again after undo. */
const cache = new WeakMap<readonly LineEvent[], Map<string, WeakRef<BarDrawing>>>();

/**
 * One bar of one part. Asked again for the same events in the same context, it is the identical drawing for as long as anybody holds it.
 */
export function engraveBar(events: readonly LineEvent[], context: BarContext): BarDrawing {
  let drawings = cache.get(events);
  if (drawings === undefined) {
    drawings = new Map();
    cache.set(events, drawings);
  }
  const key = JSON.stringify(context);
  let drawing = drawings.get(key)?.deref();
  if (drawing === undefined) {
    drawing = engraved(events, context);
    const [oldest] = drawings.keys();
    if (drawings.size >= KEPT && oldest !== undefined) drawings.delete(oldest);
    drawings.set(key, new WeakRef(drawing));
  }
  return drawing;
}

function engraved(events: readonly LineEvent[], context: BarContext): BarDrawing {
  const signs = barSigns(events, context);
  const spacing = spacingOf(signs, context);
  const { xs } = context.spacing === "desk" ? placedOnDesk(spacing, context.width) : placedOnPage(spacing, context.width);
  const beams = beamGroups(signs, context);
  const stems = stemsOf(signs, beams, context);
  const clef = clefOf(context);
  const drawn = drawNotes(signs, xs, beams, stems, clef);
  const groups: MarkGroup[] = [staffGroup(0, context.width), ...openingGroups(context)];
  const sky = new Skyline();
  for (const group of groups) if (group.role === "signature") sky.add(group.box);
  const boxes: Box[] = [];
  for (const [index, sign] of signs.entries()) {
    const x = xs[index] as number;
    const isRest = sign.heads.length === 0;
    const group = groupOf(
      isRest ? "rest" : "note",
      sign.eventAt,
      isRest ? drawRest(sign, x, context.width) : (drawn.notes[index] as Mark[]),
    );
    if (sign.gracenotes.length > 0) {
      const right = x - (spacing.rooms[index]?.accidentals ?? 0);
      const gracenotes = groupOf("gracenotes", sign.eventAt, gracenoteMarks(sign.gracenotes, right, topY(sign, clef)));
      sky.add(gracenotes.box);
      groups.push(gracenotes);
    }
    groups.push(group);
    boxes.push(group.box);
    sky.add(group.box);
  }
  for (const [place, marks] of drawn.beams.entries()) {
    const first = signs[beams[place]?.[0] ?? 0];
    const beam = groupOf("beam", first?.eventAt ?? null, marks);
    sky.add(beam.box);
    groups.push(beam);
  }
  const tuplets = tupletMarks(events, signs, boxes, beams, stems);
  const ties = tieGroups(signs, xs, stems, context);
  for (const group of [...tuplets, ...ties]) sky.add(group.box);
  const placed = { signs, xs, context };
  groups.push(...tuplets, ...ties, ...groupsAbove(placed, sky), ...syllableGroups(placed, sky), closingGroup(context));
  return { width: context.width, groups, box: boxAround(groups.map((group) => group.box)) };
}

/** Ties from every held sign to the next; the last one reaches over the bar line to the next bar's first head. */
function tieGroups(signs: readonly BarSign[], xs: readonly number[], stems: readonly Stem[], context: BarContext): readonly MarkGroup[] {
  const groups: MarkGroup[] = [];
  const add = (sign: BarSign, stem: Stem, x1: number, x2: number) => {
    groups.push(groupOf("tie", sign.eventAt, tiesOf(sign, stem, x1, x2, context)));
  };
  const [first] = signs;
  if (first !== undefined && context.tieInDrawn && first.heads.length > 0)
    add(first, stems[0] ?? "down", 0, (xs[0] as number) + headWidth(first) * 0.4);
  for (const [index, sign] of signs.entries()) {
    if (!sign.tied || sign.heads.length === 0) continue;
    const x1 = (xs[index] as number) + headWidth(sign) * 0.65 + (sign.value.dots > 0 ? 2 : 0);
    const next = signs[index + 1];
    const x2 = next === undefined ? context.width + context.tieOutReach : (xs[index + 1] as number) + headWidth(next) * 0.4;
    add(sign, stems[index] ?? "down", x1, x2);
  }
  return groups;
}

/** One tie a head. Those of a single note lie opposite its stem; those of a chord part in the middle. */
function tiesOf(sign: BarSign, stem: Stem, x1: number, x2: number, context: BarContext): readonly Mark[] {
  const clef = clefOf(context);
  return sign.heads.map(({ spelling }, index) => {
    const upper = sign.heads.length === 1 ? stem === "down" : index * 2 >= sign.heads.length;
    const bow = upper ? -1 : 1;
    return tieMark(x1, x2, staffY(spelling.letter, spelling.octave, clef) + bow * (STAFF_SPACE * 0.68), bow);
  });
}
