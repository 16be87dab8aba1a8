import { eventsOf } from "../score/doubling.ts";
import type { Line, Score } from "../score/score.ts";
import type { BarDrawing } from "./drawing.ts";
import { engraveBar } from "./engrave-bar.ts";
import { type BarPlace, barContextOf } from "./part-facts.ts";

/** One bar of a score's line, engraved where it stands. The identical drawing for as long as nothing it depends on changes. */
export function engravedBar(score: Score, line: Line, bar: number, place: BarPlace): BarDrawing {
  return engraveBar(eventsOf(score, line, bar), barContextOf(score, line, bar, place));
}
