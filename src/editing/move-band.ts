import { transposedChord } from "../pitch/chord.ts";
import type { Key } from "../pitch/key.ts";
import { readableKey, tonicOf, transposedKey } from "../pitch/key-signature.ts";
import { letterIndex, positiveModulo } from "../pitch/letter.ts";
import { semitoneOf } from "../pitch/semitone.ts";
import { pitchFromSpelling, spellingOf } from "../pitch/spelling.ts";
import { type Transposition, transposedSpelling } from "../pitch/transpose.ts";
import type { ConcertEvent, ConcertNote } from "../score/bar.ts";
import type { BarRange } from "../score/edit.ts";
import type { ConcertLine, Score } from "../score/score.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { isRange } from "./bars-in-and-out.ts";
import { withFrames } from "./frame-edits.ts";
import { NO_SUCH_BAR } from "./refusals.ts";

/** Semitones from C0 to B8: past the lowest and the highest note of every player, and safe to respell. */
const [LOWEST, HIGHEST] = [12, 119];

/** The furthest the band moves at once: two octaves, in semitones and in staff steps. */
const [MOST_SEMITONES, MOST_STEPS] = [24, 14];

/**
 * Moves what the band has in a range of bars by an interval: its key, its chords and the notes that are its players' own. The pipes stay, and so
 * does who doubles them. A key that would need more than six accidentals is respelled, and chords and notes are spelled to agree with it.
 */
export function moveBand(score: Score, range: BarRange, interval: Transposition): Outcome<Score> {
  if (!isRange(score, range)) return NO_SUCH_BAR;
  if (!isInterval(interval)) return refused("The band moves by at most two octaves.");
  const intervals = score.frames.map(({ key }) => spelledFor(key, interval));
  const lines = score.lines.map((line) => (line.kind === "pipes" ? line : movedLine(line, range, intervals)));
  const outside = lines.find((line) => line === null);
  if (outside === null) return refused("That would take a note beyond what anyone plays. Move the band the other way.");
  const moved = withFrames(score, range, (frame, bar) => {
    const { diatonic, chromatic } = intervals[bar] as Transposition;
    const chords = frame.chords.map(({ at, symbol }) => ({ at, symbol: transposedChord(symbol, diatonic, chromatic) }));
    return { ...frame, key: readableKey(transposedKey(frame.key, interval.diatonic, interval.chromatic)), chords };
  });
  return done({ ...moved, lines: lines.filter((line) => line !== null) });
}

function isInterval({ diatonic, chromatic }: Transposition): boolean {
  const whole = Number.isInteger(diatonic) && Number.isInteger(chromatic);
  return whole && Math.abs(chromatic) <= MOST_SEMITONES && Math.abs(diatonic) <= MOST_STEPS;
}

/** The interval that spells what stands in a key so that it agrees with the key as it is read after the move: a staff step off where that was respelled. */
function spelledFor(key: Key, { diatonic, chromatic }: Transposition): Transposition {
  const plain = transposedKey(key, diatonic, chromatic);
  const difference = letterIndex(tonicOf(readableKey(plain)).letter) - letterIndex(tonicOf(plain).letter);
  // One letter up or down, the short way round the seven.
  return { diatonic: diatonic + positiveModulo(difference + 3, 7) - 3, chromatic };
}

/** The line with its own bars moved, or null where a pitch would leave the range that anyone plays. */
function movedLine(line: ConcertLine, { first, last }: BarRange, intervals: readonly Transposition[]): ConcertLine | null {
  let before: ConcertEvent | null = null;
  let spelling = intervals[first] as Transposition;
  const bars: ConcertLine["bars"][number][] = line.bars.slice();
  for (let index = first; index <= last; index += 1) {
    const bar = line.bars[index];
    if (bar?.kind !== "own") {
      before = null;
      continue;
    }
    const events: ConcertEvent[] = [];
    for (const event of bar.events) {
      // What is tied over a change of key keeps one spelling, or the tie would come undone.
      const goesOn = before?.kind === "note" && before.tied;
      if (!goesOn) spelling = intervals[index] as Transposition;
      const moved: ConcertEvent | null = event.kind === "rest" ? event : movedNote(event, spelling);
      if (moved === null) return null;
      events.push(moved);
      before = event;
    }
    bars[index] = { kind: "own", events };
  }
  return { ...line, bars };
}

function movedNote(note: ConcertNote, { diatonic, chromatic }: Transposition): ConcertNote | null {
  const semitones = note.pitches.map((pitch) => semitoneOf(pitch) + chromatic);
  if (semitones.some((semitone) => semitone < LOWEST || semitone > HIGHEST)) return null;
  const spellings = note.pitches.map((pitch) => transposedSpelling(spellingOf(pitch), diatonic, chromatic));
  // Two spellings of one pitch may come out the same.
  return { ...note, pitches: [...new Set(spellings.map((spelling) => pitchFromSpelling(spelling)))] };
}
