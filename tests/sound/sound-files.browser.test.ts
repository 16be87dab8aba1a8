import { afterEach, expect, test } from "vitest";
import { page } from "vitest/browser";
import { makeSmall, makeWav, type SoundTask } from "../../components/sound/sound-file-maker.ts";
import "../../components/sound/sound-files.ts";
import type { SoundMadeEvent } from "../../components/sound/sound-files.ts";
import { keptFile, type SoundSink } from "../../components/sound/sound-sink.ts";
import { USUAL_BLEND } from "../../src/playback/blend.ts";
import { type Recording, recordingsOf } from "../../src/playback/recordings.ts";
import { firstHeard, peakOf } from "../support/measuring.ts";
import { pipeScore, withFiddle } from "../support/playback-scores.ts";
import { expectAccessible, onPaper } from "../support/sound-page.ts";
import { concertNote, gracedNote, pipeNote } from "../support/written-music.ts";

afterEach(() => document.body.replaceChildren());

const score = withFiddle(
  pipeScore([[pipeNote("low-a", 1920, { strikeIn: true }), gracedNote(["high-g"], "e", 1920)], [pipeNote("f", 3840, { cutOff: true })]]),
  [[concertNote("Bb4", 3840)], [concertNote("D5", 3840)]],
);

const named = (name: string): Recording => recordingsOf(score, USUAL_BLEND).find((one) => one.name === name) as Recording;

function taskFor(recording: Recording, more: Partial<SoundTask> = {}): SoundTask {
  return { score, recording, manner: {}, signal: new AbortController().signal, progress: () => {}, ...more };
}

/** A sink that keeps what it is given, and whether it was given up. */
function sinkInTest() {
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  const state = { aborted: false };
  const sink: SoundSink = {
    write: async (bytes) => void pieces.push(bytes.slice()),
    close: async () => new Blob(pieces),
    abort: async () => {
      state.aborted = true;
    },
  };
  return { sink, pieces, state };
}

/** The samples of a WAV file's first channel. */
async function samplesOf(file: Blob): Promise<Float32Array> {
  const bytes = new DataView(await file.arrayBuffer());
  const channels = bytes.getUint16(22, true);
  const frames = bytes.getUint32(40, true) / 3 / channels;
  return Float32Array.from({ length: frames }, (_, frame) => {
    const at = 44 + frame * 3 * channels;
    return (bytes.getUint8(at) | (bytes.getUint8(at + 1) << 8) | (bytes.getInt8(at + 2) << 16)) / 2 ** 23;
  });
}

test("a mix is a stereo WAV at 48 kHz and 24 bits, silent for its first bar, and progress ends at 1", async () => {
  const progress: number[] = [];
  const { sink } = sinkInTest();
  const file = (await makeWav(taskFor(named("Mix"), { progress: (done) => progress.push(done) }), sink)) as Blob;
  const head = new DataView(await file.slice(0, 44).arrayBuffer());
  expect([head.getUint16(22, true), head.getUint32(24, true), head.getUint16(34, true)]).toEqual([2, 48_000, 24]);
  expect(head.getUint32(4, true)).toBe(file.size - 8);
  expect(progress.at(-1)).toBe(1);
  const samples = await samplesOf(file);
  expect(peakOf(samples)).toBeLessThanOrEqual(10 ** (-1 / 20));
  expect(peakOf(samples)).toBeGreaterThan(0.05);
});

test("stems begin together: each is as long as the others, and chanter and fiddle are first heard within a tenth of a second", async () => {
  const heard: number[] = [];
  const lengths = new Set<number>();
  for (const name of ["Chanter", "fiddle"]) {
    const samples = await samplesOf((await makeWav(taskFor(named(name)), sinkInTest().sink)) as Blob);
    lengths.add(samples.length);
    heard.push(firstHeard(samples, 1e-3) / 48_000);
  }
  expect(lengths.size).toBe(1);
  // A recorded bow takes a few hundredths of a second to be heard.
  expect(Math.abs((heard[0] as number) - (heard[1] as number))).toBeLessThan(0.1);
});

test("no stem comes near full scale, not even three drones together, though no limiter stands there", async () => {
  const peaks: Record<string, number> = {};
  for (const recording of recordingsOf(score, USUAL_BLEND).filter(({ kind }) => kind === "stem")) {
    peaks[recording.name] = peakOf(await samplesOf((await makeWav(taskFor(recording), sinkInTest().sink)) as Blob));
  }
  expect(Object.keys(peaks)).toEqual(["Chanter", "Drones", "fiddle", "Click"]);
  for (const [name, peak] of Object.entries(peaks)) {
    expect(peak, name).toBeLessThan(10 ** (-1 / 20));
    expect(peak, name).toBeGreaterThan(0.01);
  }
});

test("stopped between two pieces nothing is kept", async () => {
  const stop = new AbortController();
  const { sink, state } = sinkInTest();
  stop.abort();
  await expect(makeWav(taskFor(named("Mix"), { signal: stop.signal }), sink)).rejects.toThrow(/abort/i);
  expect(state.aborted).toBe(true);
});

test("a file of the browser's own comes back whole", async () => {
  const sink = await keptFile("audio/wav");
  await sink.write(Uint8Array.of(1, 2, 3));
  await sink.write(Uint8Array.of(4));
  const file = (await sink.close()) as Blob;
  expect([...new Uint8Array(await file.arrayBuffer())]).toEqual([1, 2, 3, 4]);
  expect(file.type).toBe("audio/wav");
});

test("the small file is decoded to the same length by the browser, at a tenth of the size", async () => {
  const small = await makeSmall(taskFor(named("Rehearsal, pipes left, band right")));
  expect(small).toMatchObject({ ok: true });
  if (!small.ok) return;
  const wav = (await makeWav(taskFor(named("Rehearsal, pipes left, band right")), sinkInTest().sink)) as Blob;
  expect(small.file.size).toBeLessThan(wav.size / 10);
  const decoded = await new OfflineAudioContext(2, 1, 48_000).decodeAudioData(await small.file.arrayBuffer());
  expect(decoded.duration).toBeCloseTo((wav.size - 44) / 6 / 48_000, 0);
  expect(decoded.numberOfChannels).toBe(2);
});

test("the list names every file; a press makes one and hands it out under a name with tempo, pitches and revision", async () => {
  const element = Object.assign(document.createElement("sound-files"), { score });
  const made: SoundMadeEvent["detail"][] = [];
  element.addEventListener("sound-made", (event) => made.push((event as SoundMadeEvent).detail));
  onPaper(element, "light");
  await element.updateComplete;
  (element.shadowRoot?.querySelector("details") as HTMLDetailsElement).open = true;
  await expectAccessible();
  (page.getByRole("button", { name: "Click as WAV" }).element() as HTMLButtonElement).click();
  await expect.poll(() => made.length, { timeout: 10_000 }).toBe(1);
  expect(made[0]?.name).toBe("Untitled, Click, 60 to the minute, low A 466.2 Hz, band A 440 Hz, revision 0.wav");
});
