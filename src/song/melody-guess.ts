import type { Song, SongLine } from "./song.ts";
import { SONG_TICKS_PER_QUARTER } from "./song-ticks.ts";

/** What speaks for a line, or against it. */
export type MelodyReason =
  | "named-for-the-tune"
  | "named-for-company"
  | "has-words"
  | "on-top"
  | "single-notes"
  | "chords"
  | "busy"
  | "silent"
  | "range";

/** How likely a line is the tune. */
export interface MelodyGuess {
  /** Place among the song's lines. */
  readonly line: number;
  /** The sum of its reasons; only good for comparing lines of one song. */
  readonly weight: number;
  /** Weightiest first. */
  readonly reasons: readonly { readonly reason: MelodyReason; readonly weight: number }[];
}

/* Weights are ours: words outweigh a name, a name outweighs where a line lies. Held by tests over songs whose tune is known. */
const WORDS_WEIGHT = 4;
const NAME_WEIGHT = 3;
const TOP_WEIGHT = 1.5;
const SINGLE_WEIGHT = 1;
const RANGE_WEIGHT = 0.5;

const TUNE_NAMES =
  /melod|voice|voc(?:al|als)\b|\blead\b|\btune\b|sing|sopran|cantus|gesang|singstimme|chant\b|canto|descant|treble|superius/i;
const COMPANY_NAMES =
  /bass|tenor|\balto?\b|piano|pianoforte|guitar|drum|perc|accomp|begleit|chord|pad\b|strings?\b|organ|left|harmon|click|karaoke words/i;

/** How singable a range is, in semitones between lowest and highest note. */
const WIDEST_SUNG = 24;

/** Notes to the quarter above which a line is an accompaniment's. */
const BUSY = 3;

/** All lines, the likeliest tune first; equals in the file's order. */
export function melodyGuesses(song: Song): readonly MelodyGuess[] {
  const means = song.lines.map(meanSemitone);
  const top = Math.max(...means);
  const last = song.bars.at(-1);
  const length = last ? last.onset + last.length : 1;
  return song.lines
    .map((line, index) => guessOf(line, index, means[index] === top && song.lines.length > 1, length))
    .sort((a, b) => b.weight - a.weight || a.line - b.line);
}

function guessOf(line: SongLine, index: number, onTop: boolean, length: number): MelodyGuess {
  const count = Math.max(1, line.notes.length);
  const sung = line.notes.filter(({ syllables }) => syllables.length > 0).length;
  const sounding = line.notes.reduce((sum, { duration }) => sum + duration, 0);
  const semitones = line.notes.map(({ semitone }) => semitone);
  const range = semitones.reduce((high, one) => Math.max(high, one), 0) - semitones.reduce((low, one) => Math.min(low, one), 127);
  const thinned = line.chordsThinned / count;
  const reasons: { reason: MelodyReason; weight: number }[] = [];
  const say = (reason: MelodyReason, weight: number): void => {
    if (weight !== 0) reasons.push({ reason, weight });
  };
  // A name may hold both ("Voice, staff 1" and "Bass voice"): then company wins, since it is the narrower word.
  if (COMPANY_NAMES.test(line.name)) say("named-for-company", -NAME_WEIGHT / 2);
  else if (TUNE_NAMES.test(line.name)) say("named-for-the-tune", NAME_WEIGHT);
  if (sung > 0) say("has-words", WORDS_WEIGHT * Math.min(1, sung / count + 0.25));
  if (onTop) say("on-top", TOP_WEIGHT);
  say(thinned < 0.1 ? "single-notes" : "chords", thinned < 0.1 ? SINGLE_WEIGHT : -SINGLE_WEIGHT * Math.min(2, thinned * 3));
  if (count / (sounding / SONG_TICKS_PER_QUARTER) > BUSY) say("busy", -1);
  // Three quarters of the song silent: seldom the tune.
  if (sounding < length / 4) say("silent", -TOP_WEIGHT * (1 - sounding / (length / 4)) - SINGLE_WEIGHT);
  if (range <= WIDEST_SUNG && range >= 4) say("range", RANGE_WEIGHT);
  const weight = reasons.reduce((sum, one) => sum + one.weight, 0);
  return { line: index, weight, reasons: reasons.sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight)) };
}

/** Mean height, by sounding time. */
function meanSemitone(line: SongLine): number {
  const time = line.notes.reduce((sum, { duration }) => sum + duration, 0);
  return line.notes.reduce((sum, { semitone, duration }) => sum + semitone * (duration / Math.max(1, time)), 0);
}
