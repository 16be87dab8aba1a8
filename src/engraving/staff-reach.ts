import type { LineEvent } from "../score/like-events.ts";
import type { Line, Score } from "../score/score.ts";
import { writtenSpellings } from "./bar-signs.ts";
import { STAFF_HEIGHT } from "./drawing.ts";
import { eventsOf, readingOf } from "./part-facts.ts";
import { staffY } from "./signature.ts";

/** How far a part's heads reach beyond its staff, desk pixels over the top line and under the bottom line; never negative. */
export interface StaffReach {
  readonly above: number;
  readonly below: number;
}

interface Known extends StaffReach {
  readonly reading: string;
}

const known = new WeakMap<readonly LineEvent[], Known>();

/** How far the heads of all bars of a part reach, so that its sheet can be made tall enough once and for all. */
export function staffReach(score: Score, line: Line): StaffReach {
  let [above, below] = [0, 0];
  for (const [bar, frame] of score.frames.entries()) {
    const reading = readingOf(line, frame);
    const events = eventsOf(score, line, bar);
    const name = reading.kind === "pipes" ? "pipes" : `${reading.clef} ${reading.transposition.diatonic}`;
    let reach = known.get(events);
    if (reach?.reading !== name) {
      const clef = reading.kind === "pipes" ? "treble" : reading.clef;
      const notes = events.flatMap((event) => (event.kind === "note" ? writtenSpellings(event, reading) : []));
      const ys = notes.map(({ letter, octave }) => staffY(letter, octave, clef));
      reach = { reading: name, above: Math.max(0, ...ys.map((y) => -y)), below: Math.max(0, ...ys.map((y) => y - STAFF_HEIGHT)) };
      known.set(events, reach);
    }
    above = Math.max(above, reach.above);
    below = Math.max(below, reach.below);
  }
  return { above, below };
}
