import { eventsOf } from "../score/doubling.ts";
import { lineOf } from "../score/line-of.ts";
import type { Line, Score } from "../score/score.ts";
import { barSigns } from "./bar-signs.ts";
import { type CueBar, cueBarOf, cueDrawing, cueSpacing } from "./cue-bar.ts";
import type { BarDrawing } from "./drawing.ts";
import { engravedBar } from "./engrave-part.ts";
import { mayRunOn } from "./heading-run.ts";
import { multiRest, multiRestContext, multiRestWidths } from "./multi-rest.ts";
import { type BarPlace, barContextOf } from "./part-facts.ts";
import { naturalWidth, pressedWidth, type Spacing, spacingOf } from "./placing.ts";
import { wordsRoom } from "./rooms.ts";
import type { Stretch } from "./stretches.ts";

/** How wide a stretch is when nothing stretches or presses it, and how narrow it may be pressed. */
export interface Widths {
  readonly natural: number;
  readonly pressed: number;
}

/** What stands between two bar lines, drawn where it stands. */
export function stretchDrawing(score: Score, line: Line, stretch: Stretch, place: BarPlace): BarDrawing {
  if (stretch.last > stretch.first) {
    return multiRest(stretch.last - stretch.first + 1, multiRestContext(score, line, stretch, place));
  }
  const cue = cueOf(score, line, stretch, place);
  return cue === null ? engravedBar(score, line, stretch.first, place) : cueDrawing(cue);
}

const known = new WeakMap<readonly unknown[], Map<string, Widths>>();

/** Worked out from our own estimate: nothing is engraved for it. Kept with the bar's events. */
export function stretchWidths(score: Score, line: Line, stretch: Stretch, place: BarPlace): Widths {
  if (stretch.last > stretch.first) return multiRestWidths(multiRestContext(score, line, stretch, place));
  const cue = cueOf(score, line, stretch, place);
  if (cue !== null) return widthsOf(cue.events, JSON.stringify(cue.context), () => cueSpacing(cue));
  const events = eventsOf(score, line, stretch.first);
  const context = barContextOf(score, line, stretch.first, place);
  const own = widthsOf(events, JSON.stringify(context), () => spacingOf(barSigns(events, context), context));
  return mayRunOn(score, stretch) ? ranOn(score, line, stretch, place, own) : own;
}

/** A pickup as wide as its notes and its other words ask, as far as the bar after it can carry the rest of the heading. */
function ranOn(score: Score, line: Line, { first }: Stretch, place: BarPlace, own: Widths): Widths {
  const events = eventsOf(score, line, first);
  const context = barContextOf(score, line, first, place);
  const signs = barSigns(events, context);
  const runsOn = stretchWidths(score, line, { first: first + 1, last: first + 1, cue: null, namesCue: false }, place).pressed;
  const spacing = { ...spacingOf(signs, context), words: wordsRoom(signs, context, runsOn) };
  return { natural: Math.min(own.natural, naturalWidth(spacing)), pressed: Math.min(own.pressed, pressedWidth(spacing)) };
}

function widthsOf(events: readonly unknown[], name: string, spacingOfBar: () => Spacing): Widths {
  const kept = known.get(events) ?? new Map<string, Widths>();
  known.set(events, kept);
  let widths = kept.get(name);
  if (widths === undefined) {
    const spacing = spacingOfBar();
    widths = { natural: naturalWidth(spacing), pressed: pressedWidth(spacing) };
    if (kept.size >= 8) kept.clear();
    kept.set(name, widths);
  }
  return widths;
}

function cueOf(score: Score, line: Line, { first, cue, namesCue }: Stretch, place: BarPlace): CueBar | null {
  const source = cue === null ? null : lineOf(score, cue);
  return source === null ? null : cueBarOf(score, line, first, source, namesCue, place);
}
