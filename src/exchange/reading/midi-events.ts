import { ReadError } from "../../units/read-error.ts";
import { MOST_NOTES } from "./reading-limits.ts";

/* The events of a Standard MIDI File. Source: the Standard MIDI Files 1.0 specification, MIDI Association. */

/** One event of a track; what has no meaning for a song is not among them. Time is ticks of the file from its start. */
export type MidiEvent =
  | { readonly kind: "note-on" | "note-off"; readonly tick: number; readonly channel: number; readonly key: number }
  | { readonly kind: "bend"; readonly tick: number; readonly channel: number; readonly value: number }
  | { readonly kind: "text"; readonly tick: number; readonly type: number; readonly bytes: Uint8Array }
  | { readonly kind: "tempo"; readonly tick: number; readonly microseconds: number }
  | { readonly kind: "meter"; readonly tick: number; readonly beats: number; readonly unit: number }
  | { readonly kind: "key"; readonly tick: number; readonly fifths: number; readonly minor: boolean };

/** One track, its events in order of time. */
export interface MidiTrack {
  readonly events: readonly MidiEvent[];
  /** Ticks to its end. */
  readonly end: number;
}

/** A file taken apart. */
export interface MidiTracks {
  /** 0: all in one track; 1: tracks together; 2: tracks one after the other. */
  readonly format: number;
  readonly ticksPerQuarter: number;
  readonly tracks: readonly MidiTrack[];
}

/** Most events of a file; controllers come in thousands. */
const MOST_EVENTS = MOST_NOTES * 20;

/**
 * Takes a file apart. Chunks of unknown kind are stepped over, as the specification asks.
 * @throws ReadError with the byte, for whatever breaks the specification so that its notes could be wrong
 */
export function midiTracks(file: Uint8Array): MidiTracks {
  const bytes = unwrapped(file);
  const reader = new ByteReader(bytes, 0, bytes.length);
  if (reader.ascii(4) !== "MThd") reader.refuse("MThd", "another chunk", 0);
  const headLength = reader.uint(4);
  if (headLength < 6) reader.refuse("a head of at least 6 bytes", `${headLength}`);
  const [format, count, division] = [reader.uint(2), reader.uint(2), reader.uint(2)];
  if (format > 2) reader.refuse("format 0, 1 or 2", `${format}`, 8);
  if (division >= 0x8000) reader.refuse("ticks in a quarter", "time in frames (SMPTE), which has no beat", 12);
  if (division === 0) reader.refuse("ticks in a quarter above zero", "0", 12);
  reader.skip(headLength - 6);
  const tracks: MidiTrack[] = [];
  const budget = { events: MOST_EVENTS };
  while (tracks.length < count && reader.left > 0) {
    const name = reader.ascii(4);
    const length = reader.uint(4);
    const start = reader.at;
    if (length > reader.left) reader.refuse(`${length} bytes of ${JSON.stringify(name)}`, `${reader.left} up to the file's end`, start - 4);
    if (name === "MTrk") tracks.push(readTrack(new ByteReader(bytes, start, start + length), budget));
    reader.skip(length);
  }
  if (tracks.length < count) reader.refuse(`${count} tracks`, `${tracks.length}`);
  return { format, ticksPerQuarter: division, tracks };
}

/** A file in a RIFF wrapper taken out of it. */
function unwrapped(bytes: Uint8Array): Uint8Array {
  const outer = new ByteReader(bytes, 0, bytes.length);
  if (bytes.length < 20 || outer.ascii(4) !== "RIFF") return bytes;
  outer.skip(4);
  if (outer.ascii(4) !== "RMID" || outer.ascii(4) !== "data") outer.refuse("RIFF with MIDI in it", "something else", 8);
  const [a = 0, b = 0, c = 0, d = 0] = bytes.subarray(16, 20);
  return bytes.subarray(20, 20 + a + b * 0x100 + c * 0x10000 + d * 0x1000000);
}

function readTrack(reader: ByteReader, budget: { events: number }): MidiTrack {
  const events: MidiEvent[] = [];
  let tick = 0;
  let running = 0;
  while (reader.left > 0) {
    if (budget.events-- <= 0) reader.refuse(`at most ${MOST_EVENTS} events`, "more");
    tick += reader.variableLength();
    let status = reader.peek();
    if (status >= 0x80) reader.skip(1);
    else if (running >= 0x80) status = running;
    else reader.refuse("a status byte", `${status}`);
    if (status === 0xff) {
      const type = reader.uint(1);
      const data = reader.take(reader.variableLength());
      if (type === 0x2f) return { events, end: tick };
      const event = metaEvent(tick, type, data);
      if (event) events.push(event);
    } else if (status === 0xf0 || status === 0xf7) reader.skip(reader.variableLength());
    else if (status > 0xf0)
      reader.refuse("an event that may stand in a file", `status ${status.toString(16).toUpperCase()}`, reader.at - 1);
    else {
      running = status;
      const event = channelEvent(reader, tick, status);
      if (event) events.push(event);
    }
  }
  return reader.refuse("an end of track", "none");
}

function channelEvent(reader: ByteReader, tick: number, status: number): MidiEvent | null {
  const channel = status & 0x0f;
  const kind = status >> 4;
  const first = reader.dataByte();
  if (kind === 0xc || kind === 0xd) return null;
  const second = reader.dataByte();
  if (kind === 0x8) return { kind: "note-off", tick, channel, key: first };
  if (kind === 0x9) return { kind: second === 0 ? "note-off" : "note-on", tick, channel, key: first };
  return kind === 0xe ? { kind: "bend", tick, channel, value: first + second * 128 - 8192 } : null;
}

/** Null for one that means nothing to a song, or is too short to mean what it should. */
function metaEvent(tick: number, type: number, data: Uint8Array): MidiEvent | null {
  const [a = 0, b = 0, c = 0] = data;
  if (type >= 1 && type <= 7) return { kind: "text", tick, type, bytes: data };
  if (type === 0x51 && data.length >= 3) return { kind: "tempo", tick, microseconds: a * 0x10000 + b * 0x100 + c };
  if (type === 0x58 && data.length >= 2) return a > 0 && a <= 128 && b <= 7 ? { kind: "meter", tick, beats: a, unit: 2 ** b } : null;
  if (type !== 0x59 || data.length < 2) return null;
  const fifths = a > 127 ? a - 256 : a;
  return Math.abs(fifths) <= 7 && b <= 1 ? { kind: "key", tick, fifths, minor: b === 1 } : null;
}

/** Steps through bytes and never past their end. */
class ByteReader {
  readonly #bytes: Uint8Array;
  readonly #end: number;
  at: number;

  constructor(bytes: Uint8Array, start: number, end: number) {
    this.#bytes = bytes;
    this.at = start;
    this.#end = end;
  }

  get left(): number {
    return this.#end - this.at;
  }

  refuse(expected: string, found: string, at = this.at): never {
    throw new ReadError({ where: `byte ${at}`, expected, found });
  }

  peek(): number {
    if (this.left < 1) this.refuse("another byte", "the end");
    return this.#bytes[this.at] as number;
  }

  skip(count: number): void {
    if (count > this.left) this.refuse(`${count} more bytes`, `${this.left}`);
    this.at += count;
  }

  take(count: number): Uint8Array {
    const start = this.at;
    this.skip(count);
    return this.#bytes.subarray(start, start + count);
  }

  uint(count: number): number {
    return this.take(count).reduce((value, byte) => value * 256 + byte, 0);
  }

  ascii(count: number): string {
    return String.fromCharCode(...this.take(count));
  }

  dataByte(): number {
    const byte = this.peek();
    if (byte >= 0x80) this.refuse("a data byte (under 128)", `${byte}`);
    this.at += 1;
    return byte;
  }

  /** Seven bits a byte, at most four bytes. */
  variableLength(): number {
    let value = 0;
    for (let count = 0; count < 4; count++) {
      const byte = this.uint(1);
      value = value * 128 + (byte & 0x7f);
      if (byte < 0x80) return value;
    }
    return this.refuse("a length of at most 4 bytes", "a longer one");
  }
}
