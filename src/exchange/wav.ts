/*
 * WAV files, written front to back: the head says how long the file will be, so that the sound can follow in pieces and is never held whole.
 * Source: Multimedia Programming Interface and Data Specifications 1.0 (IBM and Microsoft, 1991), "Waveform Audio File Format"; 24 bits as
 * in Microsoft's "Multiple Channel Audio Data and WAVE Files" (whole bytes, little-endian, signed).
 */

/** What a WAV file holds. */
export interface WavShape {
  readonly channels: 1 | 2;
  /** Samples in a second, for each channel. */
  readonly sampleRate: number;
  /** Samples of each channel in the whole file. */
  readonly frames: number;
}

const BYTES = 3;
const HEAD = 44;

/** The largest value of 24 bits. */
const FULL = 2 ** 23 - 1;

/** The most a RIFF file can say of its own length, bytes. */
const LONGEST = 2 ** 32 - 1;

/** How long a file will be, bytes. */
export function wavBytes({ channels, frames }: WavShape): number {
  const samples = channels * frames * BYTES;
  return HEAD + samples + (samples % 2);
}

/**
 * The first 44 bytes of a file.
 * @throws RangeError when the file would be longer than the format can say (over four hours in stereo at 48 kHz).
 */
export function wavHead(shape: WavShape): Uint8Array<ArrayBuffer> {
  const { channels, sampleRate, frames } = shape;
  if (wavBytes(shape) > LONGEST) throw new RangeError(`A WAV file holds at most 4 GB, not ${frames} samples in ${channels} channels.`);
  const bytes = new Uint8Array(HEAD);
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string) =>
    bytes.set(
      Array.from(text, (letter) => letter.charCodeAt(0)),
      at,
    );
  word(0, "RIFF");
  view.setUint32(4, wavBytes(shape) - 8, true);
  word(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * channels * BYTES, true);
  view.setUint16(32, channels * BYTES, true);
  view.setUint16(34, BYTES * 8, true);
  word(36, "data");
  view.setUint32(40, channels * frames * BYTES, true);
  return bytes;
}

/**
 * The next piece of a file: samples from -1 to 1, one list for each channel, all equally long. What is louder is cut off at full scale, so a
 * limiter has to stand before. The last piece of a mono file with an odd number of samples needs one more byte: `wavTail`.
 * @throws RangeError when the lists are of different length.
 */
export function wavSamples(channels: readonly Float32Array[]): Uint8Array<ArrayBuffer> {
  const frames = channels[0]?.length ?? 0;
  if (channels.some(({ length }) => length !== frames)) throw new RangeError("Channels of one piece are equally long.");
  const bytes = new Uint8Array(frames * channels.length * BYTES);
  let at = 0;
  for (let frame = 0; frame < frames; frame++) {
    for (const samples of channels) {
      const value = Math.round(Math.min(1, Math.max(-1, samples[frame] as number)) * FULL);
      bytes[at] = value;
      bytes[at + 1] = value >> 8;
      bytes[at + 2] = value >> 16;
      at += BYTES;
    }
  }
  return bytes;
}

/** What comes after the last sample: RIFF chunks have an even number of bytes. */
export function wavTail({ channels, frames }: WavShape): Uint8Array<ArrayBuffer> {
  return new Uint8Array((channels * frames * BYTES) % 2);
}
