import type { PlayerId } from "../../src/ensemble/player.ts";
import {
  firstHeard,
  HEARD,
  type InstrumentId,
  instrumentOf,
  notesOf,
  RECORDED_RATE,
  type SampledNote,
} from "../../src/playback/samples.ts";

const FILES = import.meta.glob<string>("./samples/*.mp3", { query: "?url", import: "default", eager: true });

/** An instrument's recordings, ready to be played: one buffer for each note, loops closed. */
export interface SampleSet {
  readonly instrument: InstrumentId;
  readonly buffers: ReadonlyMap<SampledNote, SampledBuffer>;
}

/** One note's sound, and from where to where it goes round, in seconds; null where it dies away by itself. */
export interface SampledBuffer {
  readonly buffer: AudioBuffer;
  readonly loop: readonly [start: number, end: number] | null;
}

/** Over so many seconds before its end a loop is faded into what comes before its start. The measurements were made with the same. */
const CROSSFADE = 0.08;

const sets = new Map<string, Promise<SampleSet>>();

/**
 * Fetches and decodes an instrument's recordings for a sample rate; asked again, the same.
 * @throws what the browser says when they cannot be fetched or decoded; the next time it is tried again
 */
export function loadedSamples(context: BaseAudioContext, instrument: InstrumentId): Promise<SampleSet> {
  const name = `${instrument} ${context.sampleRate}`;
  const known = sets.get(name);
  if (known !== undefined) return known;
  const loading = loaded(context, instrument);
  sets.set(name, loading);
  loading.catch(() => sets.delete(name));
  return loading;
}

async function loaded(context: BaseAudioContext, instrument: InstrumentId): Promise<SampleSet> {
  const address = FILES[`./samples/${instrument}.mp3`];
  if (address === undefined) throw new RangeError(`There is no recording of ${instrument}.`);
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`The sound of the ${instrument} could not be fetched (${answer.status}).`);
  const whole = await context.decodeAudioData(await answer.arrayBuffer());
  const samples = whole.getChannelData(0);
  const scale = whole.sampleRate / RECORDED_RATE;
  const delay = delayOf(samples, Math.round(firstHeard(instrument) * scale));
  const buffers = notesOf(instrument).map((note) => [note, bufferOf(note, samples, whole.sampleRate, delay)] as const);
  return { instrument, buffers: new Map(buffers) };
}

/** How many samples of silence a decoder has put in front. A few either way are its ringing, not a delay. */
function delayOf(samples: Float32Array, expected: number): number {
  const delay = samples.findIndex((sample) => Math.abs(sample) > HEARD) - expected;
  return Math.abs(delay) < RINGING ? 0 : delay;
}

const RINGING = 300;

function bufferOf(note: SampledNote, samples: Float32Array, rate: number, delay: number): SampledBuffer {
  const scale = rate / RECORDED_RATE;
  const from = Math.round(note.at * scale) + delay;
  const own = samples.slice(from, from + Math.round(note.length * scale));
  const buffer = new AudioBuffer({ length: Math.max(1, own.length), sampleRate: rate });
  if (note.loop === null) {
    buffer.copyToChannel(own, 0);
    return { buffer, loop: null };
  }
  const start = Math.round(note.loop[0] * scale);
  const end = start + Math.round((note.loop[1] - note.loop[0]) * scale);
  closeLoop(own, start, end, Math.min(Math.round(CROSSFADE * rate), start));
  buffer.copyToChannel(own, 0);
  return { buffer, loop: [start / rate, end / rate] };
}

/** Fades the end of the loop into what comes before its start. Waves that are unlike would lose power in the middle of it; that is given back. */
function closeLoop(samples: Float32Array, start: number, end: number, width: number): void {
  const alike = likeness(samples.subarray(start - width, start), samples.subarray(end - width, end));
  for (let index = 0; index < width; index++) {
    const share = (index + 1) / width;
    const power = share ** 2 + (1 - share) ** 2 + 2 * share * (1 - share) * alike;
    const [before, leaving] = [samples[start - width + index] as number, samples[end - width + index] as number];
    samples[end - width + index] = (share * before + (1 - share) * leaving) / Math.sqrt(power);
  }
}

/** 1 where two waves are the same, 0 where they have nothing to do with one another. */
function likeness(one: Float32Array, other: Float32Array): number {
  let product = 0;
  let power = 0;
  one.forEach((sample, index) => {
    const met = other[index] as number;
    product += sample * met;
    power += sample * sample + met * met;
  });
  return power === 0 ? 0 : Math.max(0, (2 * product) / power);
}

/** The sets that the players of one context use: loaded when first asked for, synthetic voices standing in until then. */
export class SampleShelf {
  readonly #context: BaseAudioContext;
  readonly #arrived: () => void;
  readonly #sets = new Map<InstrumentId, SampleSet>();
  readonly #loading = new Map<InstrumentId, Promise<void>>();

  /** @param arrived called whenever another set can be played */
  constructor(context: BaseAudioContext, arrived: () => void = () => {}) {
    this.#context = context;
    this.#arrived = arrived;
  }

  /** A player's recordings, or null while they are not there. */
  readonly setFor = (player: PlayerId): SampleSet | null => this.#sets.get(instrumentOf(player)) ?? null;

  /** Loads what these players need. Kept waiting by nothing: where a set cannot be had, the synthetic voice goes on. */
  async load(players: Iterable<PlayerId>): Promise<void> {
    await Promise.all([...new Set([...players].map(instrumentOf))].map((instrument) => this.#load(instrument)));
  }

  #load(instrument: InstrumentId): Promise<void> {
    const known = this.#loading.get(instrument);
    if (known !== undefined || this.#sets.has(instrument)) return known ?? Promise.resolve();
    const loading = loadedSamples(this.#context, instrument).then(
      (set) => {
        this.#sets.set(instrument, set);
        this.#arrived();
      },
      () => {},
    );
    this.#loading.set(instrument, loading);
    return loading.finally(() => this.#loading.delete(instrument));
  }
}
