import type { Song, SongKey } from "../../song/song.ts";
import { songTicks } from "../../song/song-ticks.ts";
import { bpm } from "../../units/bpm.ts";
import { ReadError } from "../../units/read-error.ts";
import { AbcTuneReader } from "./abc-tune-reader.ts";
import { abcTunes } from "./abc-tunes.ts";
import type { AbcVoice } from "./abc-voice.ts";
import { type DraftedNote, joinedTies } from "./drafted-note.ts";
import { type DraftedBar, numberedBars } from "./numbered-bars.ts";
import { type DraftedLine, songFromDraft } from "./song-from-draft.ts";

/**
 * Reads a tune from an ABC text, by the standard 2.1 and with patience for what is in the wild. Every voice, and every overlay of one,
 * becomes a line.
 * @param wanted which tune of the file, from 1; left out: the first that has notes
 * @throws ReadError with the line in the file
 */
export function readAbc(text: string, wanted?: number): Song {
  const tunes = abcTunes(text);
  if (tunes.length === 0)
    throw new ReadError({ where: "file", expected: "MusicXML, MIDI or ABC (which has a field K:)", found: "none of them" });
  if (wanted !== undefined && !tunes[wanted - 1]) {
    throw new ReadError({ where: "file", expected: `a tune from 1 to ${tunes.length}`, found: `a wish for tune ${wanted}` });
  }
  let complaint: unknown = null;
  for (const [index, tune] of tunes.entries()) {
    if (wanted !== undefined && index !== wanted - 1) continue;
    const reader = new AbcTuneReader();
    try {
      for (const line of tune.lines) reader.read(line);
      reader.finish();
      for (const other of tunes) if (other !== tune) reader.ledger.add("other-tunes", null, null, other.title);
      return songOf(reader);
    } catch (error) {
      if (!(error instanceof ReadError)) throw error;
      complaint ??= error;
    }
  }
  throw complaint;
}

/** Titles of the tunes in an ABC text, in order; empty where a tune has none. */
export function abcTitles(text: string): readonly string[] {
  return abcTunes(text).map(({ title }) => title);
}

function songOf(reader: AbcTuneReader): Song {
  const { ledger } = reader;
  const [first] = reader.voices.filter(({ bars }) => bars.length > 0);
  if (!first) throw new ReadError({ where: "file", expected: "music after the field K:", found: "none" });
  const bars = numberedBars(sharedBars(reader.voices, first));
  const lines = reader.voices.map((voice): DraftedLine => ({ id: voice.id, name: voice.name, notes: joinedTies(notesOf(voice)) }));
  const end = bars.reduce((sum, { length }) => sum + length, 0);
  const within = <Timed extends { readonly onset: number }>(timed: readonly Timed[]) => timed.filter(({ onset }) => onset <= end);
  tellUnevenBars(reader, first);
  for (const voice of reader.voices) for (let count = 0; count < voice.rounded; count++) ledger.add("rounded-times", voice.id, null);
  return songFromDraft({
    format: "abc",
    title: reader.title,
    composer: reader.composer,
    bars,
    tempos: within(reader.tempos).map(({ onset, quarters }) => ({ onset: songTicks(onset), quarters: bpm(quarters) })),
    keys: within(reader.keys).map(
      ({ onset, key }): SongKey => ({ onset: songTicks(onset), fifths: key.fifths, mode: key.mode, modeStated: true }),
    ),
    chords: within(reader.chords).map(({ onset, symbol }) => ({ onset: songTicks(onset), symbol })),
    lines,
    ledger,
    quantising: null,
  });
}

function notesOf({ events }: AbcVoice): readonly DraftedNote[] {
  return events.flatMap(({ onset, duration, notes, syllables }) =>
    notes.map((note, index) => ({
      onset,
      duration: Math.max(1, Math.round(duration * note.share)),
      semitone: note.semitone,
      pitch: note.pitch,
      tiedFrom: note.tiedFrom,
      tiedTo: note.tiedTo,
      syllables: index === 0 ? syllables : [],
    })),
  );
}

/** The first voice's bars, and, where another voice goes on after its end, that voice's from there. */
function sharedBars(voices: readonly AbcVoice[], first: AbcVoice): readonly DraftedBar[] {
  const shared = [...first.bars];
  let end = shared.reduce((sum, { content }) => sum + content, 0);
  for (const { bars } of voices) {
    let at = 0;
    for (const bar of bars) {
      at += bar.content;
      if (at <= end) continue;
      shared.push({ ...bar, content: at - end });
      end = at;
    }
  }
  return shared;
}

function tellUnevenBars({ voices, ledger }: AbcTuneReader, first: AbcVoice): void {
  const ends = new Set(endsOf(first));
  for (const voice of voices) {
    if (voice === first || voice.id.includes("&")) continue;
    for (const [bar, end] of endsOf(voice).entries())
      if (bar < first.bars.length && !ends.has(end)) ledger.add("uneven-bars", voice.id, bar);
  }
}

function endsOf({ bars }: AbcVoice): readonly number[] {
  let at = 0;
  return bars.map(({ content }) => {
    at += content;
    return at;
  });
}
