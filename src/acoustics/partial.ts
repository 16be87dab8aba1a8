import { amplitudeOf, type Decibels } from "../units/decibels.ts";
import { type Hertz, hertz } from "../units/hertz.ts";

/** One pure tone within a sound. */
export interface Partial {
  readonly hertz: Hertz;
  /** Against any level common to all that sounds together; 0 or more. */
  readonly amplitude: number;
}

/** How strong each harmonic of a steady sound is, the fundamental first, in decibels against any common level. */
export type Spectrum = readonly Decibels[];

/** The harmonics of a steady sound at a pitch, lowest first; `level` makes all of them louder or softer. */
export function partialsOf(fundamental: Hertz, spectrum: Spectrum, level: Decibels = 0 as Decibels): readonly Partial[] {
  const factor = amplitudeOf(level);
  return spectrum.map((harmonic, index) => ({ hertz: hertz(fundamental * (index + 1)), amplitude: factor * amplitudeOf(harmonic) }));
}
