import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

export const RATE = 44_100;

/** Ticks to the quarter, at 120 a minute: a thousand to the second, so that a tick is a millisecond. */
const TICKS = 500;

/**
 * Plays keys one after another, each for `hold` seconds, one every `hold + 0.6`, and gives each as mono samples from the moment its key goes down.
 * @returns {Float32Array[]}
 */
export function renderedKeys({ soundBank, folder, program, drums = false, keys, hold, velocity }) {
  const every = hold + 0.6;
  const midi = join(folder, "keys.mid");
  const raw = join(folder, "keys.raw");
  writeFileSync(midi, midiFile(keys, { program, channel: drums ? 9 : 0, hold, every, velocity }));
  const settings = ["-o", "synth.reverb.active=0", "-o", "synth.chorus.active=0", "-g", "0.5", "-r", String(RATE)];
  execFileSync("fluidsynth", ["-n", "-i", "-q", ...settings, "-T", "raw", "-O", "float", "-F", raw, soundBank, midi], { stdio: "ignore" });
  const bytes = readFileSync(raw);
  const stereo = new Float32Array(bytes.buffer, bytes.byteOffset, bytes.byteLength / 4);
  return keys.map((_, index) => mono(stereo.subarray(Math.round(index * every * RATE) * 2, Math.round((index + 1) * every * RATE) * 2)));
}

/** Both channels' mean; the louder one alone where they would cancel. */
function mono(stereo) {
  const frames = stereo.length / 2;
  const mean = new Float32Array(frames);
  const power = [0, 0, 0];
  for (let frame = 0; frame < frames; frame++) {
    const [left, right] = [stereo[frame * 2], stereo[frame * 2 + 1]];
    mean[frame] = (left + right) / 2;
    power[0] += left * left;
    power[1] += right * right;
    power[2] += mean[frame] ** 2;
  }
  if (power[2] > 0.7 * Math.max(power[0], power[1])) return mean;
  const side = power[0] > power[1] ? 0 : 1;
  return mean.map((_, frame) => stereo[frame * 2 + side]);
}

function midiFile(keys, { program, channel, hold, every, velocity }) {
  const track = [...wait(0), 0xc0 | channel, program];
  let now = 0;
  const at = (seconds) => {
    const tick = Math.round(seconds * TICKS * 2);
    const bytes = wait(tick - now);
    now = tick;
    return bytes;
  };
  keys.forEach((key, index) => {
    track.push(...at(index * every), 0x90 | channel, key, velocity, ...at(index * every + hold), 0x80 | channel, key, 0);
  });
  // The last key's end is rendered too.
  track.push(...at(keys.length * every + 0.5), 0xff, 0x2f, 0);
  const head = [...text("MThd"), 0, 0, 0, 6, 0, 0, 0, 1, TICKS >> 8, TICKS & 255];
  return Uint8Array.from([...head, ...text("MTrk"), ...bytes32(track.length), ...track]);
}

/** A number as a MIDI file writes waiting times: seven bits a byte. */
function wait(ticks) {
  const bytes = [ticks & 127];
  for (let rest = ticks >> 7; rest > 0; rest >>= 7) bytes.unshift((rest & 127) | 128);
  return bytes;
}

const text = (word) => [...word].map((letter) => letter.charCodeAt(0));
const bytes32 = (value) => [value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];
