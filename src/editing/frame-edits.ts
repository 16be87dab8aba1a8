import type { Key } from "../pitch/key.ts";
import { readableKey } from "../pitch/key-signature.ts";
import type { BarRange } from "../score/edit.ts";
import type { Chord, Frame, Section, Tempo, Tune } from "../score/frame.ts";
import { LONGEST_TEXT, MOST_CHORDS } from "../score/limits.ts";
import { frameTicks } from "../score/meter.ts";
import { sameFrame } from "../score/same-frame.ts";
import type { Score } from "../score/score.ts";
import { isWritable } from "../score/written-values.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { isRange } from "./bars-in-and-out.ts";
import { NO_SUCH_BAR } from "./refusals.ts";

/** The score with the frames of a range changed; a frame that comes out equal stays the very same frame. */
export function withFrames(score: Score, range: BarRange, change: (frame: Frame, bar: number) => Frame): Score {
  let touched = false;
  const frames = score.frames.map((frame, bar) => {
    if (bar < range.first || bar > range.last) return frame;
    const changed = change(frame, bar);
    if (sameFrame(changed, frame)) return frame;
    touched = true;
    return changed;
  });
  return touched ? { ...score, frames } : score;
}

/** Sets how fast bars go: 10 to 500 of a note value in a minute. */
export function changeTempo(score: Score, range: BarRange, tempo: Tempo): Outcome<Score> {
  if (!isRange(score, range)) return NO_SUCH_BAR;
  if (!isWritable(tempo.beat, null) || !(tempo.perMinute >= 10 && tempo.perMinute <= 500)) {
    return refused("A tempo is 10 to 500 of a note value in a minute.");
  }
  return done(withFrames(score, range, (frame) => ({ ...frame, tempo })));
}

/** Sets the band's key; one that would need more than six accidentals is respelled. */
export function changeKey(score: Score, range: BarRange, key: Key): Outcome<Score> {
  if (!isRange(score, range)) return NO_SUCH_BAR;
  const readable = readableKey(key);
  return done(withFrames(score, range, (frame) => ({ ...frame, key: readable })));
}

/** Names the section that begins with a bar, or takes the name away (null). */
export function changeSection(score: Score, bar: number, section: Section | null): Outcome<Score> {
  if (!isRange(score, { first: bar, last: bar })) return NO_SUCH_BAR;
  if (section !== null && (section.name.trim() === "" || section.name.length > LONGEST_TEXT || section.letter.length > LONGEST_TEXT)) {
    return refused("A section needs a name.");
  }
  return done(withFrames(score, { first: bar, last: bar }, (frame) => ({ ...frame, section })));
}

/** Lets a tune of a medley begin with a bar, or takes its heading away (null). */
export function changeTune(score: Score, bar: number, tune: Tune | null): Outcome<Score> {
  if (!isRange(score, { first: bar, last: bar })) return NO_SUCH_BAR;
  if (tune !== null && tune.title.trim() === "") return refused("A tune needs a title.");
  const texts = tune === null ? [] : [tune.title, tune.tuneType, tune.composer];
  if (texts.some(({ length }) => length > LONGEST_TEXT)) return refused(`At most ${LONGEST_TEXT} characters.`);
  return done(withFrames(score, { first: bar, last: bar }, (frame) => ({ ...frame, tune })));
}

/** Sets all chords of a bar. They are kept in order of time; of two at one moment the later one in the list stays. */
export function changeChords(score: Score, bar: number, chords: readonly Chord[]): Outcome<Score> {
  if (!isRange(score, { first: bar, last: bar })) return NO_SUCH_BAR;
  const end = frameTicks(score.frames[bar] as Frame);
  if (chords.some((chord) => !Number.isInteger(chord.at) || chord.at < 0 || chord.at >= end))
    return refused("A chord begins inside its bar.");
  if (chords.length > MOST_CHORDS) return refused(`A bar has at most ${MOST_CHORDS} chords.`);
  if (chords.some((chord) => chord.symbol.trim() === "" || chord.symbol.length > LONGEST_TEXT)) return refused("A chord needs a name.");
  const ordered = [...new Map(chords.map((chord) => [chord.at, chord])).values()].sort((one, other) => one.at - other.at);
  return done(withFrames(score, { first: bar, last: bar }, (frame) => ({ ...frame, chords: ordered })));
}
