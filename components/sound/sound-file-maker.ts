import { wavHead, wavSamples, wavTail } from "../../src/exchange/wav.ts";
import type { Recording } from "../../src/playback/recordings.ts";
import { type Schedule, type ScheduleOptions, scheduleOf } from "../../src/playback/schedule.ts";
import type { Score } from "../../src/score/score.ts";
import { renderedFrames, renderedPieces } from "./render-chunks.ts";
import { keptFile, type SoundSink } from "./sound-sink.ts";

/** Sound for a desk: 48 kHz, 24 bits. */
export const WAV_TYPE = "audio/wav";
const RATE = 48_000;

/** What a small file is for is to be sent to somebody's phone: bits a second. */
const SMALL_BITRATE = 96_000;

/** One file to make. */
export interface SoundTask {
  readonly score: Score;
  readonly recording: Recording;
  /** Tempo, gracenotes, drones; a bar is always left in front. */
  readonly manner: ScheduleOptions;
  readonly signal: AbortSignal;
  /** From 0 to 1. */
  readonly progress: (done: number) => void;
}

/** A recording as WAV, piece by piece into a sink. Null where the sink is a file on the device already. */
export async function makeWav(task: SoundTask, sink: SoundSink): Promise<Blob | null> {
  const schedule = scheduleFor(task);
  const shape = { channels: task.recording.channels, sampleRate: RATE, frames: renderedFrames(schedule, RATE) };
  return filled(sink, async () => {
    await sink.write(wavHead(shape));
    for await (const { samples, done } of piecesOf(task, schedule)) {
      await sink.write(wavSamples(samples));
      task.progress(done);
    }
    await sink.write(wavTail(shape));
  });
}

/** What a small file comes out as, or why there is none. */
export type SmallFile =
  | { readonly ok: true; readonly file: Blob; readonly extension: string }
  | { readonly ok: false; readonly reason: string };

/** A recording as a small file, by whatever encoder the browser itself has. */
export async function makeSmall(task: SoundTask): Promise<SmallFile> {
  const media = await import("mediabunny");
  const kind = await media.getFirstEncodableAudioCodec(["aac", "opus"], { numberOfChannels: task.recording.channels, sampleRate: RATE });
  if (kind === null) return { ok: false, reason: "This browser has no encoder for small sound files. Take the WAV." };
  const isAac = kind === "aac";
  const target = new media.BufferTarget();
  const output = new media.Output({ format: isAac ? new media.Mp4OutputFormat() : new media.OggOutputFormat(), target });
  const source = new media.AudioBufferSource({ codec: kind, bitrate: SMALL_BITRATE });
  output.addAudioTrack(source);
  await output.start();
  try {
    for await (const { samples, done } of piecesOf(task, scheduleFor(task))) {
      await source.add(bufferOf(samples));
      task.progress(done);
    }
    await output.finalize();
  } catch (error) {
    await output.cancel();
    throw error;
  }
  const type = isAac ? "audio/mp4" : "audio/ogg";
  return { ok: true, file: new Blob([target.buffer as ArrayBuffer], { type }), extension: isAac ? "m4a" : "ogg" };
}

/** A sink for a file nobody chose a place for. */
export function sinkFor(): Promise<SoundSink> {
  return keptFile(WAV_TYPE);
}

function scheduleFor({ score, manner, recording }: SoundTask): Schedule {
  const { stretch: _, from: __, ...rest } = manner;
  const schedule = scheduleOf(score, { ...rest, countIn: true });
  return recording.counted ? schedule : { ...schedule, clicks: schedule.clicks.filter(({ countIn }) => !countIn) };
}

function piecesOf({ score, recording: { blend, channels, limited }, signal }: SoundTask, schedule: Schedule) {
  return renderedPieces(schedule, score, { sampleRate: RATE, channels, blend, limited, signal });
}

async function filled(sink: SoundSink, fill: () => Promise<void>): Promise<Blob | null> {
  try {
    await fill();
  } catch (error) {
    await sink.abort();
    throw error;
  }
  return sink.close();
}

function bufferOf(samples: readonly Float32Array[]): AudioBuffer {
  const buffer = new AudioBuffer({ length: samples[0]?.length ?? 1, numberOfChannels: samples.length, sampleRate: RATE });
  for (const [channel, data] of samples.entries()) buffer.copyToChannel(Float32Array.from(data), channel);
  return buffer;
}
