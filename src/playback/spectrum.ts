import type { Spectrum } from "../acoustics/partial.ts";
import { amplitudeOf } from "../units/decibels.ts";

/** One turn of a waveform, as sums of cosines and sines: index 1 is the fundamental, index 0 (a constant) is 0. */
export interface Waveform {
  readonly cosines: Float32Array<ArrayBuffer>;
  readonly sines: Float32Array<ArrayBuffer>;
}

/** The effective value (root mean square) every waveform is brought to, so that spectra of different shape are equally strong: -12 dB. */
export const EFFECTIVE_VALUE = 0.25;

/**
 * Adds the harmonics up. Their phases follow the square of their number, which keeps the peaks low; they depend on nothing else, so waveforms
 * of different spectra can be faded into one another without cancelling. *Source:* M. Schroeder, IEEE Trans. Inf. Theory 16 (1970) 85.
 */
export function waveformOf(spectrum: Spectrum): Waveform {
  const amplitudes = spectrum.map((level) => amplitudeOf(level));
  const power = amplitudes.reduce((sum, amplitude) => sum + (amplitude * amplitude) / 2, 0);
  const scale = EFFECTIVE_VALUE / Math.sqrt(power);
  const cosines = new Float32Array(spectrum.length + 1);
  const sines = new Float32Array(spectrum.length + 1);
  amplitudes.forEach((amplitude, index) => {
    const phase = (-Math.PI * index * (index + 1)) / PHASE_SPREAD;
    cosines[index + 1] = scale * amplitude * Math.sin(phase);
    sines[index + 1] = scale * amplitude * Math.cos(phase);
  });
  return { cosines, sines };
}

/** The same waveform begun so many turns later. */
export function turnedWaveform({ cosines, sines }: Waveform, turns: number): Waveform {
  const turned = { cosines: new Float32Array(cosines.length), sines: new Float32Array(sines.length) };
  cosines.forEach((cosine, harmonic) => {
    const angle = 2 * Math.PI * ((harmonic * turns) % 1);
    const sine = sines[harmonic] as number;
    turned.cosines[harmonic] = cosine * Math.cos(angle) + sine * Math.sin(angle);
    turned.sines[harmonic] = sine * Math.cos(angle) - cosine * Math.sin(angle);
  });
  return turned;
}

/** Over how many harmonics the phases spread; the same for every spectrum. */
const PHASE_SPREAD = 16;
