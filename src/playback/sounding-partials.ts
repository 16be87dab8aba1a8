import type { Spectrum } from "../acoustics/partial.ts";
import { type Partial, partialsOf } from "../acoustics/partial.ts";
import type { ChanterNote } from "../pipes/chanter-note.ts";
import { droneHertz } from "../pipes/drones.ts";
import type { Drone, PipeSetup } from "../pipes/pipe-setup.ts";
import { hertzOf } from "../pipes/sounding.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { equalHertz } from "../pitch/reference-pitch.ts";
import { amplitudeOf, type Decibels } from "../units/decibels.ts";
import type { Hertz } from "../units/hertz.ts";
import { CHANTER_SPECTRA, CHANTER_TONES, timbreOn } from "./chanter-timbre.ts";
import { DRONE_SPECTRA } from "./drone-timbre.ts";

/*
 * What the ear gets of each sound, as partials whose amplitudes can be set against one another: every sound's effective value is 1 before its level,
 * as the synthesis has it. The spectra are synthetic; where dissonance is least does not depend on them, how deep it dips does.
 */

/** A chanter note as its voice mixes it, at the pitch the setup gives it or at another. */
export function chanterPartials(
  setup: PipeSetup,
  note: ChanterNote,
  level: Decibels,
  hertz: Hertz = hertzOf(setup, note),
): readonly Partial[] {
  const { mix, level: own } = timbreOn(setup, note);
  const amplitudes: number[] = [];
  for (const tone of CHANTER_TONES) {
    // The four sounds share one frequency and their phases: their amplitudes add.
    for (const [index, { amplitude }] of ofEffectiveValueOne(partialsOf(hertz, CHANTER_SPECTRA[tone])).entries())
      amplitudes[index] = (amplitudes[index] ?? 0) + mix[tone] * amplitude;
  }
  const factor = amplitudeOf(level) * amplitudeOf(own);
  return amplitudes.map((amplitude, index) => ({ hertz: (hertz * (index + 1)) as Hertz, amplitude: factor * amplitude }));
}

/** A drone. */
export function dronePartialsHeard(setup: PipeSetup, drone: Drone, level: Decibels): readonly Partial[] {
  return leveled(ofEffectiveValueOne(partialsOf(droneHertz(setup, drone), DRONE_SPECTRA[drone.name])), level);
}

/** A note of the band, in equal temperament at its A. */
export function bandPartials(pitch: ConcertPitch, bandA: Hertz, spectrum: Spectrum, level: Decibels): readonly Partial[] {
  return leveled(ofEffectiveValueOne(partialsOf(equalHertz(pitch, bandA), spectrum)), level);
}

function ofEffectiveValueOne(partials: readonly Partial[]): readonly Partial[] {
  const effective = Math.sqrt(partials.reduce((sum, { amplitude }) => sum + amplitude ** 2 / 2, 0));
  return partials.map((partial) => ({ ...partial, amplitude: partial.amplitude / effective }));
}

function leveled(partials: readonly Partial[], level: Decibels): readonly Partial[] {
  const factor = amplitudeOf(level);
  return partials.map((partial) => ({ ...partial, amplitude: partial.amplitude * factor }));
}
