/*
 * Makes the recorded voices of the band anew: `node scripts/samples.mjs`. Run by hand, never by the tests. Needs Debian's fluidsynth,
 * fluid-soundfont-gm and lame.
 *
 * Each instrument is one MP3 of single notes, one after another with silence between, and for each note in the table: which key it is, how many
 * cents it lies off that key at A 440 (measured, since a recording is as it is), where it begins in the file, how long it is, and where it can go round.
 */
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DRUMS, INSTRUMENTS } from "./samples/instruments.mjs";
import { bestLoop, goneRound } from "./samples/loop.mjs";
import { hertzOfKey, measuredCents } from "./samples/pitch.mjs";
import { RATE, renderedKeys } from "./samples/render.mjs";

const SOUND_BANK = "/usr/share/sounds/sf2/FluidR3_GM.sf2";
const LICENCE = "/usr/share/doc/fluid-soundfont-gm/copyright";
const OUT = new URL("../components/sound/samples/", import.meta.url).pathname;
const TABLE = new URL("../src/playback/sample-table.json", import.meta.url).pathname;

/** Every note is brought to this level (root mean square over its first half second or its loop), so that instruments can be set against one another. */
const LEVEL = 0.1;
const PEAK = 0.9;

/** Where a file first rises above this, the table says, so that a decoder that adds silence in front can be found out. */
const HEARD = 0.05;

/** Silence between two notes of a file: an MP3 smears a little over its frames. */
const BETWEEN = Math.round(0.08 * RATE);

const folder = mkdtempSync(join(tmpdir(), "samples-"));
mkdirSync(OUT, { recursive: true });
const table = { rate: RATE, level: LEVEL, heard: HEARD, instruments: {}, firstHeard: {} };
let total = 0;
for (const instrument of [...INSTRUMENTS, { id: "drums", held: false, cut: 0, zones: [] }]) {
  const notes = instrument.id === "drums" ? drumNotes() : instrumentNotes(instrument);
  const file = join(OUT, `${instrument.id}.mp3`);
  const all = laidOut(notes);
  encode(join(folder, "notes.wav"), file, all);
  table.firstHeard[instrument.id] = all.findIndex((sample) => Math.abs(sample) > HEARD);
  total += statSync(file).size;
  table.instruments[instrument.id] = notes.map(({ samples, ...rest }) => rest);
  const worst = Math.max(...notes.map(({ cents = 0 }) => Math.abs(cents)));
  const alike = Math.min(...notes.map(({ likeness = 1 }) => likeness));
  console.log(
    `${instrument.id.padEnd(14)} ${notes.length} notes, ${(statSync(file).size / 1000).toFixed(0)} kB, as recorded up to ${worst.toFixed(1)} cents off, loops alike ${alike.toFixed(3)}`,
  );
}
for (const notes of Object.values(table.instruments)) for (const note of notes) delete note.likeness;
writeFileSync(
  TABLE,
  `${JSON.stringify(table, null, 1)
    .replace(/\n {4,}/g, " ")
    .replace(/\n {3}\}/g, " }")}\n`,
);
writeFileSync(join(OUT, "LICENCE"), licence());
console.log(`${(total / 1e6).toFixed(2)} MB in all`);
rmSync(folder, { recursive: true });

function instrumentNotes({ held, cut, zones, pitch }) {
  return zones.flatMap(({ program, keys }) =>
    renderedKeys({ soundBank: SOUND_BANK, folder, program, keys, hold: cut + 0.1, velocity: 92 }).map((rendered, index) => {
      const key = keys[index];
      const onset = onsetOf(rendered);
      const whole = rendered.slice(onset, onset + Math.round(cut * RATE));
      if (!held) {
        const cents = measuredCents(
          whole,
          key,
          Math.round(0.08 * RATE),
          Math.round(Math.min(cut, 1.6) * RATE),
          pitch === "fundamental" ? 1 : 3,
        );
        return { key, cents: rounded(cents, 2), samples: levelled(fadedOut(whole), 0, 0.5 * RATE), loop: null };
      }
      const loop = bestLoop(whole, hertzOfKey(key), Math.round(0.55 * RATE), whole.length - 1);
      const { start, end, likeness } = loop;
      // As it is held: the loop gone round, over whole passes.
      const round = goneRound(whole, loop, 6);
      const heard = measuredCents(round, key, end, end + 4 * (end - start) + Math.round((6 * RATE) / hertzOfKey(key)));
      // A little is kept behind the loop: the encoder smears, and nothing after it is played.
      const samples = levelled(whole.slice(0, Math.min(whole.length, end + Math.round(0.03 * RATE))), start, end);
      return { key, cents: rounded(heard, 2), samples, loop: [start, end], likeness };
    }),
  );
}

function drumNotes() {
  const keys = DRUMS.map(({ key }) => key);
  return renderedKeys({ soundBank: SOUND_BANK, folder, program: 0, drums: true, keys, hold: 2.2, velocity: 100 }).map((rendered, index) => {
    const onset = onsetOf(rendered);
    const { key, cut } = DRUMS[index];
    return { key, cents: 0, samples: levelled(fadedOut(rendered.slice(onset, onset + Math.round(cut * RATE))), 0, 0.1 * RATE), loop: null };
  });
}

/** The first sample that is more than a hundredth of the loudest. */
function onsetOf(samples) {
  const loudest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return samples.findIndex((sample) => Math.abs(sample) > loudest / 100);
}

function fadedOut(samples) {
  const length = Math.round(Math.min(0.25 * RATE, samples.length / 3));
  return samples.map((sample, index) => {
    const left = samples.length - index;
    return left < length ? sample * (0.5 - 0.5 * Math.cos((Math.PI * left) / length)) : sample;
  });
}

function levelled(samples, from, to) {
  const stretch = samples.subarray(Math.round(from), Math.round(to));
  const effective = Math.sqrt(stretch.reduce((sum, sample) => sum + sample * sample, 0) / stretch.length);
  const loudest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const factor = Math.min(LEVEL / effective, PEAK / loudest);
  return samples.map((sample) => sample * factor);
}

/** All notes in one row; writes into each where it begins, samples from the file's start. */
function laidOut(notes) {
  const all = new Float32Array(notes.reduce((sum, { samples }) => sum + samples.length + BETWEEN, BETWEEN));
  let at = BETWEEN;
  for (const note of notes) {
    note.at = at;
    note.length = note.samples.length;
    all.set(note.samples, at);
    at += note.samples.length + BETWEEN;
  }
  return all;
}

function encode(wav, file, samples) {
  writeFileSync(wav, waveFile(samples));
  execFileSync("lame", ["--quiet", "-m", "m", "-b", "64", "-q", "0", "--noreplaygain", wav, file]);
}

function waveFile(samples) {
  const bytes = new DataView(new ArrayBuffer(44 + samples.length * 2));
  const word = (at, text) => {
    for (const [index, letter] of [...text].entries()) bytes.setUint8(at + index, letter.charCodeAt(0));
  };
  word(0, "RIFF");
  bytes.setUint32(4, 36 + samples.length * 2, true);
  word(8, "WAVEfmt ");
  for (const [at, value] of [
    [16, 16],
    [24, RATE],
    [28, RATE * 2],
    [40, samples.length * 2],
  ])
    bytes.setUint32(at, value, true);
  for (const [at, value] of [
    [20, 1],
    [22, 1],
    [32, 2],
    [34, 16],
  ])
    bytes.setUint16(at, value, true);
  word(36, "data");
  for (const [index, sample] of samples.entries())
    bytes.setInt16(44 + index * 2, Math.round(Math.max(-1, Math.min(1, sample)) * 32767), true);
  return new Uint8Array(bytes.buffer);
}

function licence() {
  const text = readFileSync(LICENCE, "utf8");
  const from = text.indexOf("Copyright:");
  const to = text.indexOf("The Debian packaging");
  return `The notes in this folder were rendered from Fluid (R3), a General MIDI sound bank, and cut, levelled and encoded.\n\n${text.slice(from, to).trim()}\n`;
}

function rounded(value, places) {
  return Math.round(value * 10 ** places) / 10 ** places;
}
