import { barList } from "../score/bar-list.ts";
import type { Frame } from "../score/frame.ts";
import type { LineEvent } from "../score/like-events.ts";
import type { Line, Score } from "../score/score.ts";
import { writtenSpellings } from "./bar-signs.ts";
import { hundredths } from "./boxes.ts";
import { STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { eventsOf, readingOf, SYLLABLE_BASELINE } from "./part-facts.ts";
import { SYLLABLE_SIZE, VERSE_STEP } from "./rooms.ts";
import { staffY } from "./signature.ts";

/** How far a part's heads reach beyond its staff, desk pixels over the top line and under the bottom line; never negative. */
export interface StaffReach {
  readonly above: number;
  readonly below: number;
  /** How many rows of syllables there are under the staff. */
  readonly verses: number;
}

/** From the lowest head to the top of the syllables. */
const UNDER_HEADS = STAFF_SPACE;

/** Where the syllables of a part stand on the desk: at one height in all its bars, under its lowest head. */
export function deskSyllableBaseline({ below }: StaffReach): number {
  return Math.max(SYLLABLE_BASELINE.desk, hundredths(STAFF_HEIGHT + below + UNDER_HEADS + SYLLABLE_SIZE * 0.74));
}

/** How far a part's syllables reach under its staff on the desk; 0 where there are none. */
export function syllableReach(reach: StaffReach): number {
  if (reach.verses === 0) return 0;
  return deskSyllableBaseline(reach) + (reach.verses - 1) * VERSE_STEP + SYLLABLE_SIZE * 0.22 - STAFF_HEIGHT;
}

/** For each bar the reach of every line, in score order. */
const reaches = barList((score, bar) => score.lines.map((line) => reachOfBar(score, line, bar)));

/** How far the heads of all bars of a part reach, so that its sheet can be made tall enough once and for all. */
export function staffReach(score: Score, line: Line): StaffReach {
  const place = score.lines.findIndex(({ id }) => id === line.id);
  let [above, below, verses] = [0, 0, 0];
  for (const ofBar of reaches(score)) {
    const reach = ofBar[place] as StaffReach;
    above = Math.max(above, reach.above);
    below = Math.max(below, reach.below);
    verses = Math.max(verses, reach.verses);
  }
  return { above, below, verses };
}

function reachOfBar(score: Score, line: Line, bar: number): StaffReach {
  const reading = readingOf(line, score.frames[bar] as Frame);
  const events: readonly LineEvent[] = eventsOf(score, line, bar);
  const clef = reading.kind === "pipes" ? "treble" : reading.clef;
  const notes = events.flatMap((event) => (event.kind === "note" ? writtenSpellings(event, reading) : []));
  const ys = notes.map(({ letter, octave }) => staffY(letter, octave, clef));
  return {
    above: Math.max(0, ...ys.map((y) => -y)),
    below: Math.max(0, ...ys.map((y) => y - STAFF_HEIGHT)),
    verses: Math.max(0, ...events.map((event) => (event.kind === "note" ? event.syllables.length : 0))),
  };
}
