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

interface Known extends StaffReach {
  readonly reading: string;
}

const known = new WeakMap<readonly LineEvent[], Known>();

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

/** How far the heads of all bars of a part reach, so that its sheet can be made tall enough once and for all. */
export function staffReach(score: Score, line: Line): StaffReach {
  let [above, below, verses] = [0, 0, 0];
  for (const [bar, frame] of score.frames.entries()) {
    const reading = readingOf(line, frame);
    const events = eventsOf(score, line, bar);
    const name = reading.kind === "pipes" ? "pipes" : `${reading.clef} ${reading.transposition.diatonic}`;
    let reach = known.get(events);
    if (reach?.reading !== name) {
      const clef = reading.kind === "pipes" ? "treble" : reading.clef;
      const notes = events.flatMap((event) => (event.kind === "note" ? writtenSpellings(event, reading) : []));
      const ys = notes.map(({ letter, octave }) => staffY(letter, octave, clef));
      reach = {
        reading: name,
        above: Math.max(0, ...ys.map((y) => -y)),
        below: Math.max(0, ...ys.map((y) => y - STAFF_HEIGHT)),
        verses: Math.max(0, ...events.map((event) => (event.kind === "note" ? event.syllables.length : 0))),
      };
      known.set(events, reach);
    }
    above = Math.max(above, reach.above);
    below = Math.max(below, reach.below);
    verses = Math.max(verses, reach.verses);
  }
  return { above, below, verses };
}
