import { readChord } from "../../pitch/chord.ts";
import type { Quantising, Song, SongBar, SongChord, SongKey, SongLine, SongNote, SongTempo } from "../../song/song.ts";
import { quartersOf, type SongTicks, songTicks } from "../../song/song-ticks.ts";
import { ReadError } from "../../units/read-error.ts";
import type { DraftedNote } from "./drafted-note.ts";
import type { LeftOutLedger } from "./left-out-ledger.ts";
import { MOST_BARS, MOST_LINES, MOST_NOTES, MOST_QUARTERS } from "./reading-limits.ts";
import { singleNotes } from "./single-notes.ts";

/** A line as a reader hands it on. */
export interface DraftedLine {
  /** What the ledger calls it. */
  readonly id: string;
  /** What it is to be called; empty where the file does not say. */
  readonly name: string;
  /** Ties joined; in any order. */
  readonly notes: readonly DraftedNote[];
}

/** A song as a reader hands it on. Times are song ticks. */
export interface SongDraft {
  readonly format: Song["format"];
  readonly title: string;
  readonly composer: string;
  /** In order and without gaps. */
  readonly bars: readonly SongBar[];
  readonly tempos: readonly SongTempo[];
  readonly keys: readonly SongKey[];
  readonly chords: readonly SongChord[];
  readonly lines: readonly DraftedLine[];
  readonly ledger: LeftOutLedger;
  readonly quantising: Quantising | null;
}

/**
 * What every reader does last: one note at a time in each line, bars of notes, names of lines, changes that change something.
 * @throws ReadError when there is nothing to sing, or more than the limits allow
 */
export function songFromDraft(draft: SongDraft): Song {
  const { bars, ledger } = draft;
  refuseTooMuch(draft);
  const names = lineNames(draft.lines);
  const lines = draft.lines
    .map((line, index) => lineFromDraft(line, names[index] as string, bars, ledger))
    .filter(({ notes }) => notes.length > 0);
  if (lines.length === 0) throw new ReadError({ where: "file", expected: "notes with a pitch", found: "none" });
  const shown = new Map(draft.lines.map(({ id }, index) => [id, names[index] as string]));
  const chords = draft.chords.filter((chord) => {
    if (chord.symbol === "N.C." || readChord(chord.symbol)) return true;
    ledger.add("chord-texts", null, barAt(bars, chord.onset), chord.symbol);
    return false;
  });
  return {
    format: draft.format,
    title: draft.title.trim(),
    composer: draft.composer.trim(),
    bars,
    tempos: changesOnly(draft.tempos, (a, b) => a.quarters === b.quarters),
    keys: changesOnly(draft.keys, (a, b) => a.fifths === b.fifths && a.mode === b.mode),
    chords: inOrder(chords).filter((chord, index, all) => all[index - 1]?.onset !== chord.onset || all[index - 1]?.symbol !== chord.symbol),
    lines,
    leftOut: ledger.all(
      (id) => shown.get(id) ?? id,
      (bar) => bars[bar]?.number ?? bar,
    ),
    quantising: draft.quantising,
  };
}

function refuseTooMuch({ bars, lines }: SongDraft): void {
  const notes = lines.reduce((sum, line) => sum + line.notes.length, 0);
  const quarters = bars.reduce((sum, bar) => sum + quartersOf(bar.length), 0);
  const refuse = (most: number, what: string, found: number): void => {
    if (found > most) throw new ReadError({ where: "file", expected: `at most ${most} ${what}`, found: `${Math.round(found)}` });
  };
  refuse(MOST_LINES, "lines", lines.length);
  refuse(MOST_BARS, "bars", bars.length);
  refuse(MOST_NOTES, "notes", notes);
  refuse(MOST_QUARTERS, "quarters", quarters);
}

/** The place of the bar a moment lies in; the last bar for anything after it. */
export function barAt(bars: readonly SongBar[], onset: number): number {
  let [low, high] = [0, bars.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((bars[middle] as SongBar).onset <= onset) low = middle;
    else high = middle - 1;
  }
  return low;
}

function lineFromDraft(line: DraftedLine, name: string, bars: readonly SongBar[], ledger: LeftOutLedger): SongLine {
  const { notes, lower, across, chords } = singleNotes(line.notes);
  for (const note of lower) ledger.add("lower-notes", line.id, barAt(bars, note.onset));
  for (const note of across) ledger.add("overlaps", line.id, barAt(bars, note.onset));
  return {
    name,
    chordsThinned: chords,
    notes: notes.map(
      ({ onset, duration, semitone, pitch, syllables }): SongNote => ({
        bar: barAt(bars, onset),
        onset: songTicks(onset),
        duration: songTicks(duration),
        semitone,
        pitch,
        syllables: firstOfEachVerse(syllables),
      }),
    ),
  };
}

function firstOfEachVerse(syllables: SongNote["syllables"]): SongNote["syllables"] {
  const kept = syllables.filter(({ verse }, index) => syllables.findIndex((other) => other.verse === verse) === index);
  return kept.sort((a, b) => a.verse - b.verse);
}

/** A name for each line, no two the same. */
function lineNames(lines: readonly DraftedLine[]): readonly string[] {
  const taken = new Set<string>();
  return lines.map(({ name }, index) => {
    const wanted = name.replace(/\s+/g, " ").trim().slice(0, 80) || `Line ${index + 1}`;
    let free = wanted;
    for (let count = 2; taken.has(free); count++) free = `${wanted} (${count})`;
    taken.add(free);
    return free;
  });
}

function inOrder<Timed extends { readonly onset: SongTicks }>(timed: readonly Timed[]): Timed[] {
  return [...timed].sort((a, b) => a.onset - b.onset);
}

/** In order; of several at one moment the last; without those that change nothing. */
function changesOnly<Timed extends { readonly onset: SongTicks }>(timed: readonly Timed[], like: (a: Timed, b: Timed) => boolean): Timed[] {
  const ordered = inOrder(timed).filter((one, index, all) => all[index + 1]?.onset !== one.onset);
  const changes: Timed[] = [];
  for (const one of ordered) {
    const before = changes.at(-1);
    if (!before || !like(before, one)) changes.push(one);
  }
  return changes;
}
