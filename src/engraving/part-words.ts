import { playerOf } from "../ensemble/catalogue.ts";
import { isCrossFingered } from "../pipes/chanter-note.ts";
import { spokenNote } from "../pipes/note-names.ts";
import { intervalWords } from "../pitch/interval-words.ts";
import { shownKey } from "../pitch/key-signature.ts";
import { pitchClassShown, pitchFromSpelling, spokenPitch } from "../pitch/spelling.ts";
import { barNumber } from "../score/bar-number.ts";
import { isPipeNote, type LineEvent } from "../score/like-events.ts";
import { beatsOf, meterOffset } from "../score/meter.ts";
import type { Line, Score } from "../score/score.ts";
import { writtenValues } from "../score/written-values.ts";
import type { Ticks } from "../units/ticks.ts";
import { writtenSpellings } from "./bar-signs.ts";
import { readingOf, writtenKey } from "./part-facts.ts";
import type { PartStyle } from "./part-style.ts";

/** The two lines under a part's name: how it is written, and in which key it is at a bar. */
export function partCaptions(score: Score, line: Line, bar: number): readonly [string, string] {
  if (line.kind === "pipes") return ["written in A", "no key signature"];
  const frame = score.frames[bar];
  const key = frame === undefined ? "" : shownKey(writtenKey(line, frame));
  return [playerOf(line.player).transposition.chromatic === 0 ? "concert pitch" : transpositionWords(line.player), key];
}

/** How the chords over a pipe part are read, where they are shown: `on this chanter written A sounds B♭`. */
export function chordCaptions({ frames }: Score, line: Line, { chords }: PartStyle): readonly string[] {
  if (line.kind !== "pipes" || !chords || frames.every((frame) => frame.chords.length === 0)) return [];
  return [`chords at written pitch: on this chanter written A sounds ${pitchClassShown(line.setup.lowAIs)}`];
}

/** How a transposing player's part stands to the sound: `sounds a tone lower`. */
function transpositionWords(player: string): string {
  const { chromatic } = playerOf(player).transposition;
  const octaves = Math.trunc(Math.abs(chromatic) / 12);
  const rest = Math.abs(chromatic) % 12;
  const direction = chromatic > 0 ? "lower" : "higher";
  const interval = rest === 0 ? "" : intervalWords(rest);
  const octave = octaves === 0 ? "" : octaves === 1 ? "an octave" : `${octaves} octaves`;
  return `sounds ${[octave, interval].filter((words) => words !== "").join(" and ")} ${direction}`;
}

/** An event of a part for the ear of a screen reader: `Bar 19, beat 3. High G sharp, cross-fingered, half note.` */
export function spokenEvent(score: Score, line: Line, bar: number, at: Ticks, event: LineEvent): string {
  const frame = score.frames[bar];
  if (frame === undefined) throw new RangeError(`There is no bar ${bar} among ${score.frames.length}.`);
  const values = writtenValues(at, event.ticks, event.tuplet, frame, event.kind);
  const lengths = values
    .map(({ base, dots }) => `${dots > 0 ? "dotted " : ""}${VALUE_NAMES[base]}`)
    .join(event.kind === "rest" ? " and " : " tied to ");
  const place = `Bar ${barNumber(score, bar)}, ${spokenBeat(at + meterOffset(frame), beatsOf(frame.meter))}.`;
  if (event.kind === "rest") return `${place} Rest, ${lengths}.`;
  const name = isPipeNote(event)
    ? `${spokenNote(event.note)}${isCrossFingered(event.note) ? ", cross-fingered" : ""}${gracenoteWords(event.gracenotes.length)}`
    : writtenSpellings(event, readingOf(line, frame))
        .map((spelling) => spokenPitch(pitchFromSpelling(spelling)))
        .join(" and ");
  return `${place} ${name.charAt(0).toUpperCase()}${name.slice(1)}, ${lengths}.`;
}

const VALUE_NAMES = { 1: "whole note", 2: "half note", 4: "quarter note", 8: "eighth note", 16: "16th note", 32: "32nd note" } as const;

function gracenoteWords(count: number): string {
  return count === 0 ? "" : count === 1 ? ", with a gracenote" : `, with ${count} gracenotes`;
}

function spokenBeat(at: number, beats: readonly Ticks[]): string {
  let start = 0;
  for (const [index, length] of beats.entries()) {
    if (at < start + length) return at === start ? `beat ${index + 1}` : `after beat ${index + 1}`;
    start += length;
  }
  return `after beat ${beats.length}`;
}
