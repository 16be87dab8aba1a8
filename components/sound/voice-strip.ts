import { LevelMeter } from "./level-meter.ts";

/** How fast level and place follow the hand: a time constant in seconds. By ear; faster is heard as a click. */
const FOLLOWS = 0.015;

/** One voice's level and its place between the loudspeakers, both changed without a click. In mono there is no place. */
export class VoiceStrip {
  readonly input: GainNode;
  readonly #panner: StereoPannerNode | null;
  readonly #context: BaseAudioContext;
  /** Made when it is first read: nobody reads it while rendering. */
  #meter: LevelMeter | null = null;

  /** @param place -1 left to 1 right */
  constructor(context: BaseAudioContext, output: AudioNode, gain: number, place: number) {
    this.#context = context;
    this.input = new GainNode(context, { gain });
    this.#panner = isStereo(context) ? new StereoPannerNode(context, { pan: place }) : null;
    if (this.#panner === null) this.input.connect(output);
    else this.input.connect(this.#panner).connect(output);
  }

  /** From now on so loud, and there. */
  set(gain: number, place: number): void {
    move(this.input.gain, gain, this.#context.currentTime);
    if (this.#panner !== null) move(this.#panner.pan, place, this.#context.currentTime);
  }

  /** What leaves it, decibels under full scale. */
  get peak(): number {
    this.#meter ??= new LevelMeter(this.#context, this.input);
    return this.#meter.peak;
  }

  dispose(): void {
    this.#meter?.dispose();
    this.input.disconnect();
    this.#panner?.disconnect();
  }
}

/** Whether there are two loudspeakers to stand between. */
export function isStereo({ destination }: BaseAudioContext): boolean {
  return destination.channelCount > 1;
}

function move(param: AudioParam, value: number, now: number): void {
  param.cancelScheduledValues(now);
  param.setTargetAtTime(value, now, FOLLOWS);
}
