import type { Spectrum } from "../../src/acoustics/partial.ts";
import { turnedWaveform, type Waveform, waveformOf } from "../../src/playback/spectrum.ts";

const waves = new WeakMap<BaseAudioContext, Map<Spectrum, PeriodicWave>>();

/**
 * The spectrum as an oscillator's wave. Kept for each context by itself: a wave made at one sample rate and played at another is out of tune.
 */
export function waveOf(context: BaseAudioContext, spectrum: Spectrum): PeriodicWave {
  const kept = waves.get(context) ?? new Map<Spectrum, PeriodicWave>();
  waves.set(context, kept);
  const known = kept.get(spectrum);
  if (known !== undefined) return known;
  const wave = periodicWave(context, waveformOf(spectrum));
  kept.set(spectrum, wave);
  return wave;
}

function periodicWave(context: BaseAudioContext, { cosines, sines }: Waveform): PeriodicWave {
  // Normalising by peak, which is the default, would make a level depend on the wave's shape.
  return context.createPeriodicWave(cosines, sines, { disableNormalization: true });
}

/** An oscillator with that wave, begun so many turns into it; not started yet. */
export function oscillatorOf(context: BaseAudioContext, spectrum: Spectrum, turns = 0): OscillatorNode {
  const oscillator = context.createOscillator();
  const wave = turns === 0 ? waveOf(context, spectrum) : periodicWave(context, turnedWaveform(waveformOf(spectrum), turns));
  oscillator.setPeriodicWave(wave);
  return oscillator;
}
