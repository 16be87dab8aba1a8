import { barList } from "../score/bar-list.ts";
import type { Frame } from "../score/frame.ts";
import { isPipeNote, type LineEvent } from "../score/like-events.ts";
import type { Line, Score } from "../score/score.ts";
import { writtenSpellings } from "./bar-signs.ts";
import { hundredths } from "./boxes.ts";
import { STAFF_HEIGHT } from "./drawing.ts";
import { inkReach } from "./ink-reach.ts";
import { barContextOf, eventsOf, readingOf, SYLLABLE_BASELINE } from "./part-facts.ts";
import { SYLLABLE_SIZE, VERSE_STEP } from "./rooms.ts";
import { staffY } from "./signature.ts";

/** How far a part's heads reach beyond its staff, desk pixels over the top line and under the bottom line; never negative. */
export interface StaffReach {
  readonly above: number;
  readonly below: number;
  /** How far words over the staff reach up on the desk; 0 where there are none. */
  readonly words: number;
  /** How far ink reaches down in bars that have syllables; 0 where there are none. */
  readonly ink: number;
  /** How many rows of syllables there are under the staff. */
  readonly verses: number;
}

/** From the lowest ink to the top of the syllables. */
const UNDER_INK = 2;

/** Where the syllables of a part stand on the desk: at one height in all its bars, under the lowest ink over any of them. */
export function deskSyllableBaseline({ ink }: StaffReach): number {
  return Math.max(SYLLABLE_BASELINE.desk, hundredths(STAFF_HEIGHT + ink + UNDER_INK + SYLLABLE_SIZE * 0.74));
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
  let [above, below, words, ink, verses] = [0, 0, 0, 0, 0];
  for (const ofBar of reaches(score)) {
    const reach = ofBar[place] as StaffReach;
    above = Math.max(above, reach.above);
    below = Math.max(below, reach.below);
    words = Math.max(words, reach.words);
    ink = Math.max(ink, reach.ink);
    verses = Math.max(verses, reach.verses);
  }
  return { above, below, words, ink, verses };
}

function reachOfBar(score: Score, line: Line, bar: number): StaffReach {
  const reading = readingOf(line, score.frames[bar] as Frame);
  const events: readonly LineEvent[] = eventsOf(score, line, bar);
  const clef = reading.kind === "pipes" ? "treble" : reading.clef;
  const notes = events.flatMap((event) => (event.kind === "note" ? writtenSpellings(event, reading) : []));
  const ys = notes.map(({ letter, octave }) => staffY(letter, octave, clef));
  const verses = Math.max(0, ...events.map((event) => (event.kind === "note" ? event.syllables.length : 0)));
  const rows = wordRows(line, bar, events);
  const ink =
    verses + rows > 0 ? inkReach(events, barContextOf(score, line, bar, { ...DESK, firstInSystem: bar === 0 })) : { over: 0, under: 0 };
  return {
    above: Math.max(0, ...ys.map((y) => -y)),
    below: Math.max(0, ...ys.map((y) => y - STAFF_HEIGHT)),
    words: rows === 0 ? 0 : ink.over + rows * WORD_ROW,
    ink: verses === 0 ? 0 : ink.under,
    verses,
  };
}

const DESK = { spacing: "desk", width: 0, lastInSystem: false } as const;

/** A row of words over the staff with the air under it. */
const WORD_ROW = 14;

/**
 * How many rows the words over a bar may need: one direction, or the words at the beginning and end of the chanter's sound, which seldom meet.
 * Looks no further back than a bar, so a bar after silence is taken to have a direction.
 */
function wordRows(line: Line, bar: number, events: readonly LineEvent[]): number {
  if (line.kind === "pipes") {
    const words = events.filter((event) => event.kind === "note" && isPipeNote(event) && (event.strikeIn || event.cutOff));
    return Math.min(2, words.length);
  }
  const [before, own] = [line.bars[bar - 1], line.bars[bar]];
  if (own?.kind === "doubling") return before?.kind === "doubling" && before.of === own.of ? 0 : 1;
  return before !== undefined && (before.kind === "doubling" || before.events.every(({ kind }) => kind === "rest")) ? 1 : 0;
}
