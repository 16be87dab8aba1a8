import { html, nothing, type TemplateResult } from "lit";
import { isCrossFingered } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { AuditionCompany } from "../../src/playback/audition-company.ts";
import {
  beatsWithBandInWords,
  beatsWithDronesInWords,
  offDroneInWords,
  playedInWords,
  verdictOf,
  wayInWords,
} from "../../src/playback/audition-words.ts";
import { shownCents } from "../../src/units/shown.ts";
import type { SeenVersion } from "./audition-version.ts";
import { roughnessCurve } from "./roughness-curve.ts";

/** How a column stands among the others. */
export interface ColumnPlace {
  /** From 0. */
  readonly index: number;
  readonly isHeard: boolean;
  readonly isAsked: boolean;
  /** Nothing sounds at all. */
  readonly isSilent: boolean;
  readonly company: AuditionCompany;
  readonly choose: () => void;
}

/** One version: what is played and how it is written, how rough it is, what the ear will judge. All columns have the same rows in the same order. */
export function auditionColumn(seen: SeenVersion, setup: PipeSetup, picture: SVGSVGElement | null, place: ColumnPlace): TemplateResult {
  const { version, judged, chord } = seen;
  const { index, isHeard, isAsked, company, choose } = place;
  const isNobody = company === "drones";
  return html`<section class="version ${isHeard ? "sounding" : ""} ${isAsked ? "chosen" : ""}" aria-labelledby="version-${index}">
    <h3 id="version-${index}"><button class="ring" type="button" ?autofocus=${index === 0} aria-label="${index + 1}: hear ${version.name}" aria-pressed=${isAsked ? "true" : "false"} @click=${choose}>${index + 1}</button>${version.name}<span class="state">${stateOf(place)}</span></h3>
    <p class="played">${playedInWords(version.notes)}.${chord === "" || isNobody ? nothing : ` The ${company === "chord" ? "piano" : "band"} plays ${chord}.`}</p>
    ${picture ?? nothing}
    <p class="cap">Chords at written pitch. Roughness, 50 cents either side:</p>
    <div class="curves">${judged.map((one) => roughnessCurve(one, isCrossFingered(one.note)))}</div>
    <dl>
      <dt>Off the band</dt><dd>${judged.map(({ offBand }) => shownCents(offBand)).join(", then ")} cents</dd>
      <dt>Off the drone</dt><dd>${judged.map(offDroneInWords).join(", then ")}</dd>
      <dt>Beats with the band</dt><dd>${isNobody ? "nobody plays" : judged.map(beatsWithBandInWords).join("; then ")}</dd>
      <dt>Beats with the drones</dt><dd>${judged.map(beatsWithDronesInWords).join("; then ")}</dd>
      ${ways(seen, setup)}
    </dl>
    <p class="verdict">${judged.map(verdictOf).join(" Then: ")}</p>
  </section>`;
}

function ways({ version: { notes }, before, after }: SeenVersion, setup: PipeSetup) {
  const [first, last] = [notes[0], notes.at(-1)];
  if (first === undefined || last === undefined) return nothing;
  const out = after === null ? "to silence" : wayInWords(setup, last, after);
  return html`<dt>Way in</dt><dd>${wayInWords(setup, before, first)}</dd><dt>Way out</dt><dd>${out}</dd>`;
}

function stateOf({ index, isHeard, isAsked, isSilent }: ColumnPlace): string {
  if (isHeard) return "sounding now";
  if (!isAsked) return `press ${index + 1}`;
  return isSilent ? "stopped" : "next, on the beat";
}
