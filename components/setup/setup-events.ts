import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { Hertz } from "../../src/units/hertz.ts";

/** The pipes are to be set up like this. */
export type SetupChangedEvent = CustomEvent<{ readonly setup: PipeSetup }>;

/** The band is to tune to this A4. */
export type BandAChangedEvent = CustomEvent<{ readonly bandA: Hertz }>;

export function setupChanged(setup: PipeSetup): SetupChangedEvent {
  return new CustomEvent("setup-changed", { detail: { setup } });
}

export function bandAChanged(bandA: Hertz): BandAChangedEvent {
  return new CustomEvent("band-a-changed", { detail: { bandA } });
}
