import type { Clef } from "../ensemble/player.ts";
import type { Transposition } from "../pitch/transpose.ts";
import type { ConcertEvent } from "../score/bar.ts";
import type { Line, PipeLine, Score } from "../score/score.ts";
import { groupsAbove, syllableGroups } from "./around-staff.ts";
import type { BarContext } from "./bar-context.ts";
import { closingGroup, openingGroups, staffGroup } from "./bar-lines.ts";
import { barSigns, writtenSpellings } from "./bar-signs.ts";
import { beamGroups } from "./beam-groups.ts";
import { boxAround, groupOf, hundredths } from "./boxes.ts";
import { cueMarks } from "./cue-notes.ts";
import { cueEvents } from "./cues.ts";
import { type BarDrawing, type Mark, type MarkGroup, STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { type BarPlace, barContextOf, toWrittenA } from "./part-facts.ts";
import { placedOnPage, type Spacing, spacingOf } from "./placing.ts";
import { clefOf } from "./rooms.ts";
import { staffY } from "./signature.ts";
import { isSilent } from "./silence.ts";
import { Skyline } from "./skyline.ts";
import { tupletMarks } from "./tuplet-marks.ts";

/** A silent bar in which another line's notes are shown. */
export interface CueBar {
  /** The other line's events, at concert pitch, one pitch each. */
  readonly events: readonly ConcertEvent[];
  /** The bar as its player's part has it, but read so that the other line stands on his staff. */
  readonly context: BarContext;
}

/** What another line's notes in a silent bar look like to the player who waits there. `named`: whether the bar says whose they are. */
export function cueBarOf(score: Score, line: Line, bar: number, source: Line, named: boolean, place: BarPlace): CueBar {
  const own = barContextOf(score, line, bar, place);
  const clef = clefOf(own);
  const transposition = own.reading.kind === "concert" ? own.reading.transposition : toWrittenA((line as PipeLine).setup);
  // Both bars of a cue are moved by what suits the last of them.
  const last = isSilent(score, line, bar + 1) ? bar + 1 : bar;
  const reading = { kind: "concert", clef, transposition: ontoStaff(cueEvents(score, source, last), clef, transposition) } as const;
  const directions = [own.directions, named ? `cue: ${source.name}` : ""].filter((words) => words !== "").join(", ");
  return { events: cueEvents(score, source, bar), context: { ...own, reading, directions } };
}

/** The transposition moved by so many octaves that the notes lie about the middle of the staff. */
function ontoStaff(events: readonly ConcertEvent[], clef: Clef, { diatonic, chromatic }: Transposition): Transposition {
  const reading = { kind: "concert", clef, transposition: { diatonic, chromatic } } as const;
  const ys = events.flatMap((event) =>
    event.kind === "note" ? writtenSpellings(event, reading).map(({ letter, octave }) => staffY(letter, octave, clef)) : [],
  );
  if (ys.length === 0) return { diatonic, chromatic };
  const middle = ys.reduce((sum, y) => sum + y, 0) / ys.length;
  const octaves = Math.round((middle - STAFF_HEIGHT / 2) / (3.5 * STAFF_SPACE));
  return { diatonic: diatonic + 7 * octaves, chromatic: chromatic + 12 * octaves };
}

/** Room and distances of the small notes. */
export function cueSpacing({ events, context }: CueBar): Spacing {
  return spacingOf(barSigns(events, context), context);
}

const kept = new WeakMap<readonly ConcertEvent[], Map<string, BarDrawing>>();

/** The bar drawn: small notes on the staff, the player's own rest under it. */
export function cueDrawing(cue: CueBar): BarDrawing {
  const drawings = kept.get(cue.events) ?? new Map<string, BarDrawing>();
  kept.set(cue.events, drawings);
  const name = JSON.stringify(cue.context);
  const found = drawings.get(name);
  if (found !== undefined) return found;
  const drawing = drawn(cue);
  if (drawings.size >= 8) drawings.clear();
  drawings.set(name, drawing);
  return drawing;
}

function drawn({ events, context }: CueBar): BarDrawing {
  const signs = barSigns(events, context);
  const { xs } = placedOnPage(spacingOf(signs, context), context.width);
  const beams = beamGroups(signs, context);
  const marks = cueMarks(signs, xs, beams, clefOf(context));
  const groups: MarkGroup[] = [staffGroup(0, context.width), ...openingGroups(context)];
  const sky = new Skyline();
  const add = (group: MarkGroup) => {
    groups.push(group);
    sky.add(group.box);
  };
  for (const group of groups) if (group.role === "signature") sky.add(group.box);
  // They are nobody's events here, so no group has a moment.
  const notes = marks.signs.map((list, index) => groupOf(signs[index]?.heads.length === 0 ? "rest" : "note", null, list));
  const boxes = notes.map(({ box }) => box);
  notes.forEach(add);
  for (const beam of marks.beams) add(groupOf("beam", null, beam));
  for (const tie of marks.ties) add(groupOf("tie", null, [tie]));
  const up = signs.map(() => "up" as const);
  for (const { marks: figure } of tupletMarks(events, signs, boxes, beams, up)) add(groupOf("tuplet", null, figure));
  add(groupOf("rest", null, ownRest(context.width, sky)));
  const placed = { signs, xs, context };
  groups.push(...groupsAbove(placed, sky), ...syllableGroups(placed, sky), closingGroup(context));
  return { width: context.width, groups, box: boxAround(groups.map(({ box }) => box)) };
}

/** A whole bar's rest under everything else. */
function ownRest(width: number, sky: Skyline): readonly Mark[] {
  const code = SIGN.wholeRestOutside;
  const left = hundredths((width - glyphWidth(code)) / 2);
  const lowest = sky.bottomUnder(left - 4, left + glyphWidth(code) + 4, STAFF_HEIGHT);
  return [{ kind: "glyph", code, x: left, y: hundredths(Math.max(STAFF_HEIGHT + STAFF_SPACE, lowest + 4)), scale: 1 }];
}
