import type { Clef } from "../ensemble/player.ts";
import type { LineEvent } from "../score/like-events.ts";
import { chartGroupsBelow, groupsAbove, syllableGroups } from "./around-staff.ts";
import type { BarContext } from "./bar-context.ts";
import { closingGroup, openingGroups, staffGroup } from "./bar-lines.ts";
import { type BarSign, barSigns } from "./bar-signs.ts";
import { beamGroups } from "./beam-groups.ts";
import { boxAround, groupOf } from "./boxes.ts";
import { drawNotes, drawRest } from "./draw-notes.ts";
import type { BarDrawing, Box, Mark, MarkGroup } from "./drawing.ts";
import { gracenoteMarks } from "./gracenotes.ts";
import { placedOnDesk, placedOnPage, type Spacing, spacingOf } from "./placing.ts";
import { AFTER_BAR_LINE, CLOSING_ROOM, clefOf, stemsOf, topY } from "./rooms.ts";
import { Skyline } from "./skyline.ts";
import { tieComingIn, tieGroups } from "./ties.ts";
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
  const gracenotes = signs.map((sign, index) =>
    gracenoteGroup(sign, (xs[index] as number) - (spacing.rooms[index]?.accidentals ?? 0), clef),
  );
  const drawn = drawNotes({ signs, xs, beams, stems, clef, gracenotes });
  const groups: MarkGroup[] = [staffGroup(0, context.width), ...openingGroups(context)];
  const sky = new Skyline();
  for (const group of groups) if (group.role === "signature") sky.add(group.box);
  if (context.tieIn && signs[0] !== undefined) sky.add(tieComingIn(signs[0], xs[0] as number, clef));
  const boxes: Box[] = [];
  for (const [index, sign] of signs.entries()) {
    const x = xs[index] as number;
    const isRest = sign.heads.length === 0;
    const group = groupOf(
      isRest ? "rest" : "note",
      sign.eventAt,
      isRest ? drawRest(sign, x, middleOf(spacing, context.width)) : (drawn.notes[index] as Mark[]),
    );
    const before = gracenotes[index];
    if (before) {
      sky.add(before.box);
      groups.push(before);
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
    // Figures of tuplets go clear of whatever beam their notes hang on.
    for (const index of beams[place] ?? []) {
      const { left, right, top, bottom } = boxes[index] as Box;
      boxes[index] = { left, right, top: Math.min(top, beam.box.top), bottom: Math.max(bottom, beam.box.bottom) };
    }
  }
  const tuplets = tupletMarks(events, signs, boxes, beams, stems);
  const ties = tieGroups({ signs, xs, stems, rooms: spacing.rooms, context });
  for (const group of [...tuplets, ...ties]) sky.add(group.box);
  const placed = { signs, xs, context };
  groups.push(
    ...tuplets,
    ...ties,
    ...groupsAbove(placed, sky),
    ...chartGroupsBelow(placed, sky),
    ...syllableGroups(placed, sky),
    closingGroup(context),
  );
  return { width: context.width, groups, box: boxAround(groups.map((group) => group.box)) };
}

/** The middle of a bar between whatever stands at its beginning and its end. */
function middleOf({ opening, closing }: Spacing, width: number): number {
  return (opening - AFTER_BAR_LINE + width - (closing - CLOSING_ROOM.plain)) / 2;
}

/** A sign's gracenotes, ending before its head or its accidental. */
function gracenoteGroup(sign: BarSign, right: number, clef: Clef): MarkGroup | null {
  if (sign.gracenotes.length === 0) return null;
  const hasAccidental = sign.heads.some(({ accidental }) => accidental !== null);
  return groupOf("gracenotes", sign.eventAt, gracenoteMarks(sign.gracenotes, right, topY(sign, clef), hasAccidental));
}
