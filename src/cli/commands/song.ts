import type { SongWishes } from "../../exchange/reading/read-song.ts";
import { leftOutWords } from "../../song/left-out.ts";
import { melodyGuesses } from "../../song/melody-guess.ts";
import type { Song, SongLine, SongMeter } from "../../song/song.ts";
import { songKeyName } from "../../song/song-key-name.ts";
import { quartersOf } from "../../song/song-ticks.ts";
import { ReadError } from "../../units/read-error.ts";
import { rounded } from "../../units/shown.ts";
import type { Command, CommandArguments } from "../command.ts";
import { readSongFile } from "../read-song-file.ts";
import { textTable } from "../text-table.ts";

/** What `ninefold song --json` prints. Bars are numbered as a reader is shown them: a pickup is 0. Onsets are quarters from the start. */
export interface SongReport {
  readonly title: string;
  /** As they stand in the file. */
  readonly lines: readonly {
    readonly name: string;
    /** How many. */
    readonly notes: number;
    /** Sounding, MIDI numbering, as is the highest. */
    readonly lowest: number;
    readonly highest: number;
    /** Whether this is the likely tune: one line is. */
    readonly melody: boolean;
  }[];
  /** From the bar on. */
  readonly meters: readonly { readonly bar: number; readonly meter: string }[];
  readonly keys: readonly { readonly bar: number; readonly onset: number; readonly key: string }[];
  /** Quarters in a minute at the start; null where the file does not say. */
  readonly tempo: number | null;
  /** How many. */
  readonly bars: number;
  readonly chords: readonly { readonly bar: number; readonly onset: number; readonly symbol: string }[];
  /** A phrase each: what, how many, where. */
  readonly leftOut: readonly string[];
  /** With --notes: of the line asked for, else of the likely tune. */
  readonly notes?: readonly NoteReport[];
}

/** A note as `--notes` prints it: repeats not played out, ties joined. */
export interface NoteReport {
  readonly bar: number;
  /** Quarters from the start, as is the duration. */
  readonly onset: number;
  readonly duration: number;
  readonly midi: number;
}

/** `ninefold song`: what a song file holds. */
export const command: Command = {
  name: "song",
  positionals: ["FILE"],
  options: {
    line: { kind: "value", value: "N", help: "the line whose notes to print, from 1 (else the likely tune)" },
    notes: { kind: "flag", help: "print the line's notes too" },
    tune: { kind: "value", value: "N", help: "which tune of a file of several, from 1 (else the first with notes)" },
    meter: { kind: "value", value: "3/4", help: "the meter to bar a song of free meter in (else it is refused)" },
  },
  async run(given, { resolvePath }) {
    const [file] = given.positionals as readonly [string];
    const song = await readSongFile(resolvePath(file), file, wishesOf(given));
    const melody = melodyGuesses(song)[0]?.line ?? 0;
    const chosen = lineOf(given, song, melody);
    const report = reportOf(song, melody, given.flags.has("notes") ? chosen : null);
    return given.flags.has("json") ? JSON.stringify(report) : inWords(song, report);
  },
};

/** What the options ask of the reader. */
function wishesOf({ values }: CommandArguments): SongWishes {
  return {
    ...(values.tune === undefined ? {} : { tune: wholeFrom1("--tune", values.tune) }),
    ...(values.meter === undefined ? {} : { meter: meterFrom(values.meter) }),
  };
}

function wholeFrom1(where: string, text: string): number {
  if (!/^[1-9]\d{0,5}$/.test(text)) throw new ReadError({ where, expected: "a whole number from 1", found: JSON.stringify(text) });
  return Number(text);
}

function meterFrom(text: string): SongMeter {
  const match = /^([1-9]\d?)\/(1|2|4|8|16|32)$/.exec(text);
  if (!match) throw new ReadError({ where: "--meter", expected: "a meter such as 3/4", found: JSON.stringify(text) });
  return { beats: Number(match[1]), unit: Number(match[2]) };
}

function lineOf({ values }: CommandArguments, song: Song, melody: number): SongLine {
  const number = values.line === undefined ? melody + 1 : wholeFrom1("--line", values.line);
  const line = song.lines[number - 1];
  if (!line) throw new ReadError({ where: "--line", expected: `a line from 1 to ${song.lines.length}`, found: `${number}` });
  return line;
}

function reportOf(song: Song, melody: number, noted: SongLine | null): SongReport {
  const numberAt = (onset: number): number => (song.bars.findLast((bar) => bar.onset <= onset) ?? song.bars[0])?.number ?? 1;
  const meters = song.bars.map(({ number, meter }) => ({ bar: number, meter: meter ? `${meter.beats}/${meter.unit}` : "free" }));
  return {
    title: song.title,
    lines: song.lines.map(({ name, notes }, index) => ({
      name,
      notes: notes.length,
      lowest: notes.reduce((low, { semitone }) => Math.min(low, semitone), 127),
      highest: notes.reduce((high, { semitone }) => Math.max(high, semitone), 0),
      melody: index === melody,
    })),
    meters: meters.filter(({ meter }, index) => meter !== meters[index - 1]?.meter),
    keys: song.keys.map((key) => ({ bar: numberAt(key.onset), onset: quartersOf(key.onset), key: songKeyName(key) })),
    tempo: song.tempos[0] ? rounded(song.tempos[0].quarters, 3) : null,
    bars: song.bars.length,
    chords: song.chords.map(({ onset, symbol }) => ({ bar: numberAt(onset), onset: quartersOf(onset), symbol })),
    leftOut: [...song.leftOut.map(leftOutWords), ...quantisingWords(song)],
    ...(noted === null
      ? {}
      : {
          notes: noted.notes.map(({ bar, onset, duration, semitone }) => ({
            bar: song.bars[bar]?.number ?? bar,
            onset: quartersOf(onset),
            duration: quartersOf(duration),
            midi: semitone,
          })),
        }),
  };
}

/** Said only where something was moved. */
function quantisingWords({ quantising }: Song): readonly string[] {
  if (!quantising || quantising.largestError === 0) return [];
  const [largest, mean] = [rounded(quantising.largestError, 3), rounded(quantising.meanError, 4)];
  return [`played times put on a grid: moved by at most ${largest} quarter, ${mean} on average`];
}

function inWords(song: Song, report: SongReport): string {
  const rows = report.lines.map(({ name, notes, lowest, highest, melody }, index) => [
    `${index + 1}`,
    name,
    `${notes}`,
    `${lowest} to ${highest}`,
    melody ? "likely the tune" : "",
  ]);
  return [
    `${report.title || "(no title)"}: ${report.bars} bars, ${report.meters.map(({ meter }) => meter).join(", ")}`,
    report.keys.map(({ key }) => key).join(", ") || "no key said",
    song.tempos.length === 0 ? "no tempo said" : `${report.tempo} quarters a minute`,
    "",
    textTable(["", "line", "notes", "MIDI", ""], rows, ["right", "left", "right", "left", "left"]),
    ...(report.chords.length === 0 ? [] : ["", `Chords: ${report.chords.map(({ symbol }) => symbol).join(" ")}`]),
    ...(report.notes ?? []).map(
      ({ bar, onset, duration, midi }) => `bar ${bar}, ${rounded(onset, 4)}: ${midi} for ${rounded(duration, 4)}`,
    ),
    ...(report.leftOut.length === 0 ? [] : ["", "Left out:", ...report.leftOut.map((one) => `  ${one}`)]),
  ].join("\n");
}
