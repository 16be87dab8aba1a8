import { isCrossFingered } from "../pipes/chanter-note.ts";
import { barList } from "../score/bar-list.ts";
import { eventsOf } from "../score/doubling.ts";
import type { Frame } from "../score/frame.ts";
import { isPipeNote, type LineEvent } from "../score/like-events.ts";
import type { Line, Score } from "../score/score.ts";
import type { Reading } from "./bar-context.ts";
import { writtenSpellings } from "./bar-signs.ts";
import { hundredths } from "./boxes.ts";
import { STAFF_HEIGHT } from "./drawing.ts";
import { inkReach } from "./ink-reach.ts";
import { barContextOf, readingOf, SYLLABLE_BASELINE } from "./part-facts.ts";
import { SYLLABLE_SIZE, VERSE_STEP } from "./rooms.ts";
import { staffY } from "./signature.ts";
import { TIE_REACH } from "./ties.ts";

/** How far a part's ink reaches beyond its staff on the desk, in desk pixels; never negative. */
export interface StaffReach {
  /** Over the top line, words and brackets of endings included; 0 where no bar needs more than any sheet has. */
  readonly over: number;
  /** Under the bottom line, syllables left out; 0 where no bar needs more than any sheet has. */
  readonly under: number;
  /** Under the bottom line in bars that have syllables; 0 where there are none. */
  readonly sung: number;
  /** How many rows of syllables there are under the staff. */
  readonly verses: number;
}

/** What every sheet has over its staff and under it. */
export const LEAST_ROOM = 34;

/** From the lowest ink to the top of the syllables. */
const UNDER_INK = 2;

/** Where the syllables of a part stand on the desk: at one height in all its bars, under the lowest ink over any of them. */
export function deskSyllableBaseline({ sung }: StaffReach): number {
  return Math.max(SYLLABLE_BASELINE.desk, hundredths(STAFF_HEIGHT + sung + UNDER_INK + SYLLABLE_SIZE * 0.74));
}

/** How far a part's syllables reach under its staff on the desk; 0 where there are none. */
export function syllableReach(reach: StaffReach): number {
  if (reach.verses === 0) return 0;
  return deskSyllableBaseline(reach) + (reach.verses - 1) * VERSE_STEP + SYLLABLE_SIZE * 0.22 - STAFF_HEIGHT;
}

/** For each bar the reach of every line, in score order. */
const reaches = barList((score, bar) => score.lines.map((line) => reachOfBar(score, line, bar)));

/** How far all bars of a part reach, so that its sheet can be made tall enough once and for all. */
export function staffReach(score: Score, line: Line): StaffReach {
  const place = score.lines.findIndex(({ id }) => id === line.id);
  let [over, under, sung, verses] = [0, 0, 0, 0];
  for (const ofBar of reaches(score)) {
    const reach = ofBar[place] as StaffReach;
    over = Math.max(over, reach.over);
    under = Math.max(under, reach.under);
    sung = Math.max(sung, reach.sung);
    verses = Math.max(verses, reach.verses);
  }
  return { over, under, sung, verses };
}

const NOTHING: StaffReach = { over: 0, under: 0, sung: 0, verses: 0 };

function reachOfBar(score: Score, line: Line, bar: number): StaffReach {
  const frame = score.frames[bar] as Frame;
  const events: readonly LineEvent[] = eventsOf(score, line, bar);
  const verses = Math.max(0, ...events.map((event) => (event.kind === "note" ? event.syllables.length : 0)));
  const rows = wordRows(score, line, bar);
  if (verses + rows === 0 && frame.ending === null && isQuiet(events, readingOf(line, frame))) return NOTHING;
  const { over, under } = inkReach(events, barContextOf(score, line, bar, { ...DESK, firstInSystem: bar === 0 }));
  const words = rows === 0 ? over : Math.max(over, UNDER_WORDS) + rows * WORD_ROW;
  return { over: words + (frame.ending === null ? 0 : BRACKET), under, sung: verses === 0 ? 0 : under, verses };
}

/** A stem that turns its back on the staff ends so far from its head, under two sloped beams; and anything else that stands on a head. */
const MOST_STEM = 30;
const MOST_ON_HEAD = Math.max(TIE_REACH, 12.5);

/**
 * Whether a bar's notes stay within the room of every sheet, told from their heads alone, which costs a tenth of measuring them. Stems point to the
 * middle, so that one that leaves the staff upwards has heads below the staff beside it.
 */
function isQuiet(events: readonly LineEvent[], reading: Reading): boolean {
  const isPlain = events.every((event) => {
    if (event.tuplet !== null) return false;
    return event.kind === "rest" || (isPipeNote(event) ? !isCrossFingered(event.note) : event.ticks >= SIXTEENTH);
  });
  if (!isPlain || reading.kind === "pipes") return isPlain;
  const notes = events.flatMap((event) => (event.kind === "note" ? writtenSpellings(event, reading) : []));
  const ys = notes.map(({ letter, octave }) => staffY(letter, octave, reading.clef));
  const [over, under] = [-Math.min(0, ...ys), Math.max(STAFF_HEIGHT, ...ys) - STAFF_HEIGHT];
  return Math.min(over, under) + MOST_STEM <= LEAST_ROOM && Math.max(over, under) + MOST_ON_HEAD <= LEAST_ROOM;
}

const SIXTEENTH = 240;

const DESK = { spacing: "desk", width: 0, lastInSystem: false } as const;

/** A row of words over the staff with the air under it; and what the lowest row stands clear of in any case. */
const WORD_ROW = 14;
const UNDER_WORDS = 5;

/** The bracket of an ending with the air under it. */
const BRACKET = 17.5;

/**
 * How many rows the words over a bar may need: one direction, or those at each beginning and end of the chanter's sound.
 * Looks no further back than a bar, so a bar after silence is taken to have a direction.
 */
function wordRows(score: Score, line: Line, bar: number): number {
  if (line.kind === "pipes") {
    // A note that is written as two has its strike-in over the first and its cut-off over the second.
    return eventsOf(score, line, bar).reduce(
      (sum, event) => sum + (event.kind === "note" && isPipeNote(event) ? +event.strikeIn + +event.cutOff : 0),
      0,
    );
  }
  const [before, own] = [line.bars[bar - 1], line.bars[bar]];
  const wasDoubling = before?.kind === "doubling";
  const goesOn = own?.kind === "doubling" ? wasDoubling && before.of === own.of : !wasDoubling;
  return (before === undefined && goesOn) || (goesOn && eventsOf(score, line, bar - 1).some(({ kind }) => kind === "note")) ? 0 : 1;
}
