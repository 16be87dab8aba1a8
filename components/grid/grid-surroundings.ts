import { html, nothing, svg } from "lit";
import { guard } from "lit/directives/guard.js";
import { dronePartials } from "../../src/pipes/drones.ts";
import { styleMap } from "../shared/style-map.ts";
import { placeOfTime } from "./bar-places.ts";
import type { Ghost } from "./gesture.ts";
import { heightOf } from "./grid-measures.ts";
import { rowFigures } from "./grid-rows.ts";
import type { GridScene, PitchScene } from "./grid-scene.ts";
import { type GridStep, stepEntry } from "./grid-step.ts";
import { droneLines } from "./label-column.ts";
import { stepChoice } from "./step-choice.ts";

/** Partials under this one lie far apart and are not named. */
const FIRST_NAMED_PARTIAL = 4;

/** What does not change along time: bands of the drone's partials, rows, drones. Written again only for another setup, band or size. */
export function drawBack({ pitch }: GridScene) {
  return guard([pitch], () => drawBands(pitch));
}

function drawBands(pitch: PitchScene) {
  const { measures } = pitch;
  return svg`
    ${dronePartials(pitch.setup).map(({ cents }) => svg`<rect class="hum" x="0" y=${heightOf(measures, cents) - 3.5} width="100%" height="7"></rect>`)}
    ${pitch.rows.map((row) => svg`<line class=${row.crossFingered ? "row-line crossed" : "row-line"} x1="0" x2="100%" y1=${row.y} y2=${row.y}></line>`)}
    <line class="foot" x1="0" x2="100%" y1=${pitch.foot + 0.5} y2=${pitch.foot + 0.5}></line>
    ${droneLines(pitch.setup, measures).map(({ y, thick }) => svg`<line class=${thick ? "drone bass" : "drone"} x1="0" x2="100%" y1=${y} y2=${y}></line>`)}
  `;
}

/** What stands over the drones in the right margin: two lines of 24 px, the least that is easily hit, and 3 px. */
const TOOLS_ROOM = 51;

/** The right margin: the drone's partials by number, and how finely time is drawn. */
export function drawMargin({ pitch }: GridScene, step: GridStep, chooseStep: (step: GridStep) => void, showKeys: () => void) {
  return guard([pitch, step], () => drawTools(pitch, step, chooseStep, showKeys));
}

function drawTools(pitch: PitchScene, step: GridStep, chooseStep: (step: GridStep) => void, showKeys: () => void) {
  const { measures } = pitch;
  const partials = dronePartials(pitch.setup).filter(({ partial }) => partial >= FIRST_NAMED_PARTIAL);
  return html`
    ${partials.length === 0 ? nothing : html`<span class="partial-head">Bass partial</span>`}
    ${partials.map(({ partial, cents }) => html`<span class="partial" style=${styleMap({ top: `${heightOf(measures, cents)}px` })}>${partial}th</span>`)}
    <div class="tools" style=${styleMap({ top: `${pitch.foot - TOOLS_ROOM}px` })}>
      <span>in <filled-blank words=${stepEntry(step).words} label="Drawn in">${stepChoice(step, chooseStep)}</filled-blank></span>
      <button class="link" type="button" @click=${showKeys}>Keys</button>
    </div>
    <span class="their" style=${styleMap({ top: `${pitch.foot + 5}px` })}>their place</span>
    <span class="their" style=${styleMap({ top: `${pitch.foot + 21}px` })}>in the chord</span>
  `;
}

/** The name, concert pitch and cents of the row a ghost lies on. */
export function drawTag(scene: GridScene, ghost: Ghost | null) {
  const row = ghost?.kind === "note" ? scene.pitch.rows.find(({ note }) => note === ghost.note) : undefined;
  if (ghost === null || row === undefined) return nothing;
  const right = placeOfTime(scene.score.frames, scene.widths, ghost.to);
  return html`<div class="tag" style=${styleMap({ left: `${right + 8}px`, top: `${row.y - 13}px` })}><b>${row.name}</b> ${rowFigures(row)}</div>`;
}

/** What an empty sketch says. */
export function drawTeaching(compact: boolean, hearAll: () => void, openExample: () => void) {
  return html`<div class="teaching">
    <h2>${compact ? "Draw along a row." : "Draw along a row, or type its letter, A to G."}</h2>
    <p>${compact ? "Each row is one chanter note; on the shaded ones the drones already sound." : "Each row is one chanter note at its true height. The shaded rows are where the drones already sound."}</p>
    <p class="offers">
      <button class="link" type="button" @click=${hearAll}>Hear the nine notes</button>
      <button class="link" type="button" @click=${openExample}>Open an example</button>
    </p>
  </div>`;
}
