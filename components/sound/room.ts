import { amplitudeOf, type Decibels } from "../../src/units/decibels.ts";

/** How long the room answers, in seconds, until it is 60 dB down; and how soon its first answer comes. By ear: a small room with people in it. */
const DIES_IN = 0.9;
const FIRST_ANSWER = 0.012;

/** Walls take the high sounds first: from the answer's start to its end a low-pass closes, as a share of each sample that is new. */
const BRIGHT = 0.7;
const DULL = 0.12;

const answers = new Map<number, AudioBuffer>();

/** What a clap in the room sounds like, both ears apart; the same whenever it is asked for. Its power is 1. */
function answerOf(sampleRate: number): AudioBuffer {
  const known = answers.get(sampleRate);
  if (known !== undefined) return known;
  const length = Math.round(DIES_IN * sampleRate);
  const buffer = new AudioBuffer({ length, numberOfChannels: 2, sampleRate });
  for (const ear of [0, 1]) buffer.copyToChannel(noiseDyingAway(length, sampleRate, ear + 1), ear);
  answers.set(sampleRate, buffer);
  return buffer;
}

function noiseDyingAway(length: number, sampleRate: number, seed: number): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(length);
  let state = seed * 0x9e3779b9;
  let held = 0;
  let power = 0;
  for (let at = Math.round(FIRST_ANSWER * sampleRate); at < length; at += 1) {
    // Marsaglia's xorshift: noise that is the same each time.
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    const noise = state / 2 ** 31;
    const share = at / length;
    held += (BRIGHT + (DULL - BRIGHT) * share) * (noise - held);
    const value = held * 10 ** (-3 * share);
    samples[at] = value;
    power += value * value;
  }
  return samples.map((value) => value / Math.sqrt(power));
}

/** A room that answers into an output as loudly as it is told to. */
export class Room {
  readonly input: ConvolverNode;
  readonly #level: GainNode;
  readonly #context: BaseAudioContext;

  constructor(context: BaseAudioContext, output: AudioNode, level: Decibels | null) {
    this.#context = context;
    this.input = new ConvolverNode(context, { disableNormalization: true, buffer: answerOf(context.sampleRate) });
    this.#level = new GainNode(context, { gain: gainOf(level) });
    this.input.connect(this.#level).connect(output);
  }

  /** Louder, softer or not at all, without a click. */
  set(level: Decibels | null): void {
    this.#level.gain.cancelScheduledValues(this.#context.currentTime);
    this.#level.gain.setTargetAtTime(gainOf(level), this.#context.currentTime, FOLLOWS);
  }

  dispose(): void {
    this.#level.disconnect();
    this.input.disconnect();
  }
}

/** How fast it follows, a time constant in seconds. By ear. */
const FOLLOWS = 0.015;

function gainOf(level: Decibels | null): number {
  return level === null ? 0 : amplitudeOf(level);
}
