import type { Spectrum } from "../../src/acoustics/partial.ts";
import { waveformOf } from "../../src/playback/spectrum.ts";

const waves = new WeakMap<BaseAudioContext, Map<Spectrum, PeriodicWave>>();

/**
 * The spectrum as an oscillator's wave. Kept for each context by itself: a wave made at one sample rate and played at another is out of tune.
 */
export function waveOf(context: BaseAudioContext, spectrum: Spectrum): PeriodicWave {
  const kept = waves.get(context) ?? new Map<Spectrum, PeriodicWave>();
  waves.set(context, kept);
  const known = kept.get(spectrum);
  if (known !== undefined) return known;
  const { cosines, sines } = waveformOf(spectrum);
  // Normalising by peak, which is the default, would make a level depend on the wave's shape.
  const wave = context.createPeriodicWave(cosines, sines, { disableNormalization: true });
  kept.set(spectrum, wave);
  return wave;
}

/** An oscillator with that wave; not started yet. */
export function oscillatorOf(context: BaseAudioContext, spectrum: Spectrum): OscillatorNode {
  const oscillator = context.createOscillator();
  oscillator.setPeriodicWave(waveOf(context, spectrum));
  return oscillator;
}
