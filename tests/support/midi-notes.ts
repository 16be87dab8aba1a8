/** A note of a MIDI file. */
export interface MidiNote {
  /** Which track it is in, from 0. */
  readonly track: number;
  /** MIDI numbering: C4 is 60. */
  readonly pitch: number;
  /** In quarters from the start of the file. */
  readonly from: number;
  readonly to: number;
}

/**
 * The notes of a MIDI file in order of track and time, by the Standard MIDI File rules; what is no note is passed over.
 * @throws RangeError when it is no such file
 */
export function midiNotes(bytes: Uint8Array): readonly MidiNote[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (chunkName(bytes, 0) !== "MThd") throw new RangeError("not a MIDI file");
  const tracks = view.getUint16(10);
  const ticksPerQuarter = view.getUint16(12);
  const notes: MidiNote[] = [];
  let offset = 14;
  for (let track = 0; track < tracks; track += 1) {
    const length = view.getUint32(offset + 4);
    notes.push(...trackNotes(bytes.subarray(offset + 8, offset + 8 + length), track, ticksPerQuarter));
    offset += 8 + length;
  }
  return notes;
}

function trackNotes(bytes: Uint8Array, track: number, ticksPerQuarter: number): readonly MidiNote[] {
  const notes: MidiNote[] = [];
  const sounding = new Map<number, number[]>();
  let [at, tick, status] = [0, 0, 0];
  const next = (): number => bytes[at++] ?? 0;
  const variableLength = (): number => {
    let value = 0;
    for (;;) {
      const byte = next();
      value = value * 128 + (byte & 0x7f);
      if (byte < 0x80) return value;
    }
  };
  const skip = (count: number): void => {
    at += count;
  };
  while (at < bytes.length) {
    tick += variableLength();
    if ((bytes[at] ?? 0) >= 0x80) status = next();
    if (status === 0xff) {
      next();
      skip(variableLength());
    } else if (status === 0xf0 || status === 0xf7) {
      skip(variableLength());
    } else if (status >= 0xc0 && status < 0xe0) {
      next();
    } else {
      const [pitch, value] = [next(), next()];
      const starts = status >= 0x90 && status < 0xa0 && value > 0;
      const stops = (status >= 0x80 && status < 0x90) || (status >= 0x90 && status < 0xa0 && value === 0);
      if (starts) sounding.set(pitch, [...(sounding.get(pitch) ?? []), tick]);
      const from = stops ? sounding.get(pitch)?.shift() : undefined;
      if (from !== undefined) notes.push({ track, pitch, from: from / ticksPerQuarter, to: tick / ticksPerQuarter });
    }
  }
  return notes.sort((a, b) => a.from - b.from || a.pitch - b.pitch);
}

function chunkName(bytes: Uint8Array, offset: number): string {
  return String.fromCharCode(...bytes.subarray(offset, offset + 4));
}
