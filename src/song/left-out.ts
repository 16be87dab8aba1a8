/** What a song can have in its file that does not come over. */
export type LeftOutKind =
  | "gracenotes"
  | "cues"
  | "lower-notes"
  | "overlaps"
  | "ornaments"
  | "microtones"
  | "unpitched"
  | "percussion"
  | "marks"
  | "jumps"
  | "words"
  | "chord-texts"
  | "signatures"
  | "rounded-times"
  | "bends"
  | "out-of-range"
  | "uneven-bars"
  | "other-tunes"
  | "unread";

/** Things of one kind that were left out, gathered by line. */
export interface LeftOut {
  readonly kind: LeftOutKind;
  /** The line's name; null where it belongs to the song as a whole. */
  readonly line: string | null;
  /** Numbers of the bars they stood in, ascending, each once; empty where they stand in none. */
  readonly bars: readonly number[];
  /** How many. */
  readonly count: number;
  /** What a text was that could not be read, of the first; else empty. */
  readonly example: string;
}

/** One of each kind and several, as words. */
const WORDS: Readonly<Record<LeftOutKind, readonly [one: string, several: string]>> = {
  gracenotes: ["gracenote", "gracenotes"],
  cues: ["cue note", "cue notes"],
  "lower-notes": ["lower note of a chord (its top note is kept)", "lower notes of chords (their top notes are kept)"],
  overlaps: ["note sounding across another", "notes sounding across others"],
  ornaments: ["ornament", "ornaments"],
  microtones: ["note between two semitones, put on the nearest", "notes between two semitones, put on the nearest"],
  unpitched: ["note without pitch", "notes without pitch"],
  percussion: ["percussion note", "percussion notes"],
  marks: ["slur, articulation or loudness mark", "slurs, articulations and loudness marks"],
  jumps: ["jump (da capo, segno, coda, fine)", "jumps (da capo, segno, coda, fine)"],
  words: ["text that belongs to no note", "texts that belong to no note"],
  "chord-texts": ["text in place of a chord symbol", "texts in place of chord symbols"],
  signatures: ["key signature of its own kind", "key signatures of their own kind"],
  "rounded-times": ["time no grid holds, put on the nearest", "times no grid holds, put on the nearest"],
  bends: ["pitch bend", "pitch bends"],
  "out-of-range": ["note too low or too high to be named", "notes too low or too high to be named"],
  "uneven-bars": ["bar that ends elsewhere than in the first line", "bars that end elsewhere than in the first line"],
  "other-tunes": ["other tune in the file", "other tunes in the file"],
  unread: ["thing that could not be read", "things that could not be read"],
};

/** A sentence fragment for a list: `3 gracenotes in Soprano, bars 2, 5–7`. */
export function leftOutWords({ kind, line, bars, count, example }: LeftOut): string {
  const [one, several] = WORDS[kind];
  const what = `${count} ${count === 1 ? one : several}`;
  const quoted = example === "" ? "" : ` (${example})`;
  const where = [...(line === null ? [] : [line]), ...(bars.length === 0 ? [] : [barWords(bars)])];
  return `${what}${quoted}${where.length === 0 ? "" : ` in ${where.join(", ")}`}`;
}

/** Bar numbers as runs: `bars 2, 5–7`. */
function barWords(bars: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const bar of bars) {
    const last = runs.at(-1);
    if (last && bar <= last[1] + 1) last[1] = bar;
    else runs.push([bar, bar]);
  }
  const words = runs.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`)).join(", ");
  return `${bars.length === 1 ? "bar" : "bars"} ${words}`;
}
