import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { type WavShape, wavBytes, wavHead, wavSamples, wavTail } from "../../src/exchange/wav.ts";

const sine = (frames: number, turn: number) => Float32Array.from({ length: frames }, (_, at) => 0.9 * Math.sin(at * turn));

function fileOf(shape: WavShape, pieces: readonly (readonly Float32Array[])[]): Uint8Array {
  const parts = [wavHead(shape), ...pieces.map(wavSamples), wavTail(shape)];
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** 24-bit samples read back by the letter of the format. */
function readBack(bytes: Uint8Array) {
  const view = new DataView(bytes.buffer);
  const text = (at: number, length: number) => String.fromCharCode(...bytes.subarray(at, at + length));
  expect([text(0, 4), text(8, 8), text(36, 4)]).toEqual(["RIFF", "WAVEfmt ", "data"]);
  expect(view.getUint32(4, true)).toBe(bytes.length - 8);
  const [channels, rate, align, bits] = [
    view.getUint16(22, true),
    view.getUint32(24, true),
    view.getUint16(32, true),
    view.getUint16(34, true),
  ];
  expect([view.getUint16(20, true), align, bits]).toEqual([1, channels * 3, 24]);
  expect(view.getUint32(28, true)).toBe(rate * align);
  const count = view.getUint32(40, true) / 3;
  const samples = Array.from({ length: count }, (_, index) => {
    const at = 44 + index * 3;
    return ((view.getUint8(at) | (view.getUint8(at + 1) << 8) | (view.getInt8(at + 2) << 16)) as number) / (2 ** 23 - 1);
  });
  return { channels, rate, samples };
}

test("what is written in pieces reads back as it was, within half a step of 24 bits", () => {
  const [left, right] = [sine(1000, 0.05), sine(1000, 0.07)];
  const shape = { channels: 2, sampleRate: 48_000, frames: 1000 } as const;
  const bytes = fileOf(shape, [
    [left.subarray(0, 333), right.subarray(0, 333)],
    [left.subarray(333), right.subarray(333)],
  ]);
  expect(bytes.length).toBe(wavBytes(shape));
  const { channels, rate, samples } = readBack(bytes);
  expect([channels, rate]).toEqual([2, 48_000]);
  samples.forEach((value, index) => {
    const wanted = (index % 2 === 0 ? left : right)[index >> 1] as number;
    expect(Math.abs(value - wanted)).toBeLessThanOrEqual(0.5 / (2 ** 23 - 1) + 1e-12);
  });
});

test("an odd number of mono samples is filled up to an even number of bytes", () => {
  const shape = { channels: 1, sampleRate: 44_100, frames: 3 } as const;
  const bytes = fileOf(shape, [[Float32Array.of(1, -1, 0)]]);
  expect(bytes.length % 2).toBe(0);
  expect(readBack(bytes).samples).toEqual([1, -1, 0]);
});

test("louder than full scale is cut off there and does not turn round", () => {
  const { samples } = readBack(fileOf({ channels: 1, sampleRate: 48_000, frames: 2 }, [[Float32Array.of(1.5, -7)]]));
  expect(samples).toEqual([1, -1]);
});

test("a file longer than the format can say is refused, and channels of different length too", () => {
  expect(() => wavHead({ channels: 2, sampleRate: 48_000, frames: 2 ** 30 })).toThrow(RangeError);
  expect(() => wavSamples([new Float32Array(2), new Float32Array(3)])).toThrow(RangeError);
});

test.skipIf(!has("soxi"))("sox reads the head as 48 kHz, 24 bits, two channels, one second", () => {
  const folder = mkdtempSync(join(tmpdir(), "wav-"));
  const file = join(folder, "one.wav");
  const frames = 48_000;
  writeFileSync(file, fileOf({ channels: 2, sampleRate: 48_000, frames }, [[sine(frames, 0.05), sine(frames, 0.05)]]));
  const asked = (flag: string) => execFileSync("soxi", [flag, file], { encoding: "utf8" }).trim();
  expect([asked("-r"), asked("-c"), asked("-b"), asked("-s")]).toEqual(["48000", "2", "24", "48000"]);
  rmSync(folder, { recursive: true });
});

function has(program: string): boolean {
  try {
    execFileSync(program, ["--version"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
}
