import { chordPitchClasses } from "../pitch/chord.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { type Ticks, ticks } from "../units/ticks.ts";
import type { Chord, Frame } from "./frame.ts";
import { beatsOf, frameTicks } from "./meter.ts";

/**
 * Chords as a band leader scribbles them: one mark a beat, a dot for a beat on which the chord is held, a bar line between
 * bars: `E . A . | C#m`. A bar may stop short; what is left of it holds. Sharps and flats may be signs or letters.
 */
export function chordsFromText(text: string, frames: readonly Frame[]): Outcome<readonly (readonly Chord[])[]> {
  const bars = text.split("|").map((bar) => bar.trim());
  if (bars.length > frames.length) {
    return refused(`There are chords for ${bars.length} bars here, and ${frames.length} ${frames.length === 1 ? "is" : "are"} chosen.`);
  }
  const all: (readonly Chord[])[] = [];
  for (const [index, frame] of frames.entries()) {
    const chords = chordsOfBar(bars[index] ?? "", frame);
    if (!chords.ok) return chords;
    all.push(chords.value);
  }
  return done(all);
}

function chordsOfBar(text: string, frame: Frame): Outcome<readonly Chord[]> {
  const marks = text === "" ? [] : text.split(/\s+/);
  const beats = beatStarts(frame);
  if (marks.length > beats.length) return refused(`“${text}” has ${marks.length} marks for a bar of ${beats.length} beats.`);
  const chords: Chord[] = [];
  for (const [index, mark] of marks.entries()) {
    if (mark === ".") continue;
    const symbol = mark.replaceAll("♯", "#").replaceAll("♭", "b");
    if (chordPitchClasses(symbol) === null) return refused(`“${mark}” is no chord that can be read. Chords look like E, C♯m, F♯7, B/D♯.`);
    chords.push({ at: beats[index] ?? ticks(0), symbol });
  }
  return done(chords);
}

/** The same chords as that text, for the same frames. Chords that stand off the beat are moved to the beat they are in. */
export function textOfChords(frames: readonly Frame[]): string {
  const bars = frames.map((frame) => {
    const marks = beatStarts(frame).map(() => ".");
    const beats = beatStarts(frame);
    for (const chord of frame.chords) {
      const beat = beats.findLastIndex((start) => start <= chord.at);
      if (beat >= 0) marks[beat] = chord.symbol.replaceAll("#", "♯").replaceAll(/(?<=[A-G])b/g, "♭");
    }
    while (marks.at(-1) === ".") marks.pop();
    return marks.join(" ");
  });
  return bars.every((bar) => bar === "") ? "" : bars.join(" | ");
}

/** Where the beats of a bar start; a short bar keeps those that fit. */
function beatStarts(frame: Frame): readonly Ticks[] {
  const starts: Ticks[] = [];
  let at = 0;
  for (const beat of beatsOf(frame.meter)) {
    if (at >= frameTicks(frame)) break;
    starts.push(ticks(at));
    at += beat;
  }
  return starts;
}
