import type { Song, SongMeter } from "../../song/song.ts";
import { ReadError } from "../../units/read-error.ts";
import { barredAs } from "./barred-as.ts";
import { declaredEncoding, decodedText } from "./decoded-text.ts";
import { readAbc } from "./read-abc.ts";
import { readMidi } from "./read-midi.ts";
import { readMusicxml } from "./read-musicxml.ts";
import { MOST_BYTES } from "./reading-limits.ts";
import { unpackedMxl } from "./unpacked-mxl.ts";

/** What a reader may be asked for. */
export interface SongWishes {
  /** In a file of several tunes (ABC): which, from 1. Left out: the first that has notes. */
  readonly tune?: number;
  /** The meter in which a song in free meter is to be barred. Left out: it is refused. */
  readonly meter?: SongMeter;
}

/**
 * Reads a song from a file's bytes: MusicXML (plain or compressed), a Standard MIDI File or ABC, told apart by what is in it. Pure: the
 * same bytes give the same song, in Node, on a page or in its worker.
 * @param name what the file is called; every complaint begins with it
 * @throws ReadError for everything that cannot be read, with its place
 */
export function songFromBytes(bytes: Uint8Array, name: string, wishes: SongWishes = {}): Song {
  try {
    if (bytes.length > MOST_BYTES)
      throw new ReadError({ where: "file", expected: `at most ${MOST_BYTES} bytes`, found: `${bytes.length}` });
    return metered(readAny(bytes, wishes), wishes);
  } catch (error) {
    if (!(error instanceof ReadError)) throw error;
    const { where, expected, found } = error;
    throw new ReadError({ where: where === "file" ? name : `${name}, ${where}`, expected, found });
  }
}

/** The same for a pasted text. */
export function songFromText(text: string, name: string, wishes: SongWishes = {}): Song {
  return songFromBytes(new TextEncoder().encode(text), name, wishes);
}

function readAny(bytes: Uint8Array, wishes: SongWishes): Song {
  if (bytes.length === 0) throw new ReadError({ where: "file", expected: "MusicXML, MIDI or ABC", found: "an empty file" });
  const head = new TextDecoder("latin1").decode(bytes.subarray(0, 4));
  if (head.startsWith("PK")) return readXmlBytes(unpackedMxl(bytes));
  if (head === "MThd" || head === "RIFF") return readMidi(bytes);
  const text = decodedText(bytes, declaredEncoding(bytes));
  if (/^\s*</.test(text)) return readMusicxml(text);
  return readAbc(text, wishes.tune);
}

function readXmlBytes(bytes: Uint8Array): Song {
  return readMusicxml(decodedText(bytes, declaredEncoding(bytes)));
}

function metered(song: Song, { meter }: SongWishes): Song {
  const free = song.bars.find((bar) => bar.meter === null);
  if (!free) return song;
  if (meter) return barredAs(song, meter);
  throw new ReadError({ where: `bar ${free.number}`, expected: "a meter (or a wish for one to bar it in)", found: "free meter" });
}
