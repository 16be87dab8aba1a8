import { html, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import type { CrossFingeredNote } from "../../src/pipes/chanter-note.ts";
import type { CrossFingering, PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import { LEVEL_REACH, MOST_DULLNESS } from "../../src/pipes/setup-fault.ts";
import { type Cents, cents } from "../../src/units/cents.ts";
import { decibels } from "../../src/units/decibels.ts";
import { shownNumber } from "../../src/units/shown.ts";
import { styleMap } from "../shared/style-map.ts";

/** How far each way the pitch of a cross-fingering may be set, cents. */
const PITCH_REACH = 60;

/** What the sliders do. */
export interface SlidersAct {
  /** With every movement. */
  readonly moved: (setup: PipeSetup) => void;
  /** A slider is let go. */
  readonly letGo: () => void;
}

/**
 * How one cross-fingering answers on this chanter: its pitch, its loudness, how dull it is.
 *
 * @param middle where the slider of pitch has its middle, cents over low A: it stays while the pitch is set
 */
export function crossFingeringSliders(setup: PipeSetup, note: CrossFingeredNote, middle: Cents, act: SlidersAct): TemplateResult {
  const own = setup.crossFingerings.find((one) => one.note === note) as CrossFingering;
  const slider = (
    words: string,
    value: number,
    [least, most, step]: readonly number[],
    change: (value: number) => Partial<CrossFingering>,
  ) => {
    const [from, to] = [least ?? 0, most ?? 1];
    const moved = (event: Event): void =>
      act.moved(withCrossFingering(setup, note, change((event.target as HTMLInputElement).valueAsNumber)));
    return html`<label class="field">${words}
      <input type="range" min=${from} max=${to} step=${step ?? 1} .value=${live(String(value))} aria-valuetext=${words}
        style=${styleMap({ "--fill": `${(100 * (value - from)) / (to - from)}%` })} @input=${moved} @change=${act.letGo} />
    </label>`;
  };
  const around = Math.round(middle);
  return html`<div class="sliders" role="group" aria-label="This cross-fingering, on this chanter">
    ${slider(`Pitch ${shownNumber(own.cents, 0)} cents over low A`, Math.round(own.cents), [around - PITCH_REACH, around + PITCH_REACH, 1], (value) => ({ cents: cents(value) }))}
    ${slider(`Loudness ${shownNumber(own.level, 1)} dB`, own.level, [LEVEL_REACH.lowest, LEVEL_REACH.highest, 0.5], (value) => ({ level: decibels(value) }))}
    ${slider(`Dullness ${shownNumber(own.dullness, 1)} of ${MOST_DULLNESS}`, own.dullness, [0, MOST_DULLNESS, 0.5], (value) => ({ dullness: value }))}
  </div>`;
}
