import { Compressor } from "tone/build/esm/component/dynamics/Compressor.js";
import { Context } from "tone/build/esm/core/context/Context.js";
import { Gain } from "tone/build/esm/core/context/Gain.js";
import { setContext } from "tone/build/esm/core/context/GlobalContext.js";

// Deep imports only: the package itself builds a context as it is imported, and with it a worker that the page's policy forbids.

/**
 * Tone's view of an audio context. `native` is the browser's own, on which oscillators are made: Tone's keep a waveform across contexts of
 * different sample rates, and it is then out of tune.
 */
export interface SoundContext<Native extends BaseAudioContext = BaseAudioContext> {
  readonly native: Native;
  readonly tone: Context;
}

/** A gain whose level changes without a click. */
export type Strip = Gain<"gain">;

/** How fast a level follows the hand: a time constant in seconds. By ear; faster is heard as a click. */
const FOLLOWS = 0.015;

/** Wraps a context, live or offline. Nothing ticks: what sounds is written ahead onto the audio clock. */
export function soundContextOf<Native extends BaseAudioContext>(native: Native): SoundContext<Native> {
  const tone = new Context({ context: native as never, clockSource: "offline", lookAhead: 0 });
  // Whatever in Tone asks for a context gets this one, and never makes its own.
  setContext(tone);
  return { native, tone };
}

/** A gain that leads to another one, or to the loudspeakers. */
export function stripTo({ tone }: SoundContext, output: Strip | AudioNode, gain = 1): Strip {
  const strip = new Gain<"gain">({ context: tone, gain });
  strip.connect(output as Gain);
  return strip;
}

/** Where a strip is fed. */
export function inputOf(strip: Strip): AudioNode {
  return strip.input as unknown as AudioNode;
}

/** Moves a strip's gain to a value from now on. */
export function moveTo(strip: Strip, gain: number, { native }: SoundContext): void {
  strip.gain.cancelScheduledValues(native.currentTime);
  strip.gain.setTargetAtTime(gain, native.currentTime, FOLLOWS);
}

/** How much later everything is heard behind the limiter, in seconds. *Source:* Web Audio API, DynamicsCompressorNode: its look-ahead is 6 ms. */
export const LIMITER_DELAY = 0.006;

/** From here on loud sounds are held down, in decibels under full scale, by so many to one. */
const HELD_DOWN_FROM = -6;
const RATIO = 20;

/** Nothing leaves louder than this: -1 dB under full scale. */
export const CEILING = 10 ** (-1 / 20);

/** Up to here the ceiling leaves the sound exactly as it is. */
const BENDS_FROM = 0.7;

/** How far above full scale the ceiling still knows what to do: 12 dB. */
const KNOWS = 4;

/**
 * The end of the chain: a compressor that holds peaks down before they are heard, and after it a ceiling that no sample passes.
 * The compressor delays everything by 6 ms and brings its own gain, which is taken out again, so that a quiet blend passes unchanged.
 * *Source:* Web Audio API, DynamicsCompressorNode, "computing the makeup gain": the gain of a full-scale signal, inverted, to the power 0.6.
 */
export function limiterTo(context: SoundContext, output: AudioNode): AudioNode {
  const compressor = new Compressor({
    context: context.tone,
    threshold: HELD_DOWN_FROM,
    ratio: RATIO,
    knee: 0,
    attack: 0.003,
    release: 0.1,
  });
  const makeup = -HELD_DOWN_FROM * (1 - 1 / RATIO) * 0.6;
  const ceiling = new WaveShaperNode(context.native, { curve: ceilingCurve() });
  const scaled = new GainNode(context.native, { gain: 10 ** (-makeup / 20) / KNOWS });
  compressor.connect(scaled as unknown as Gain);
  scaled.connect(ceiling).connect(output);
  return compressor.input as unknown as AudioNode;
}

/** Straight up to `BENDS_FROM`, then ever flatter towards the ceiling, which it does not reach. */
function ceilingCurve(): Float32Array<ArrayBuffer> {
  const half = 2048;
  const room = CEILING - BENDS_FROM;
  return Float32Array.from({ length: 2 * half + 1 }, (_, index) => {
    const value = ((index - half) / half) * KNOWS;
    const size = Math.abs(value);
    return size <= BENDS_FROM ? value : Math.sign(value) * (BENDS_FROM + room * Math.tanh((size - BENDS_FROM) / room));
  });
}
