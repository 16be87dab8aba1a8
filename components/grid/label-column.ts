import { html, nothing, svg } from "lit";
import { guard } from "lit/directives/guard.js";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import { droneConcertPitch, droneHertz, soundingDrones } from "../../src/pipes/drones.ts";
import type { Drone, PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { shownPitch } from "../../src/pitch/spelling.ts";
import { shownCents } from "../../src/units/shown.ts";
import { styleMap } from "../shared/style-map.ts";
import { type GridMeasures, PHONE, rowsHeight } from "./grid-measures.ts";
import { bareSemitones, type GridRow, NOTICED, spokenRow } from "./grid-rows.ts";
import type { PitchScene } from "./grid-scene.ts";

/** Where the two scales stand, px from the column's right edge. */
const CHANTER_SCALE = 46;
const BAND_SCALE = 8;

/** What the column left of time shows of the moment. */
export interface LabelMarks {
  readonly chosen: ChanterNote | null;
  readonly hovered: ChanterNote | null;
  readonly sounding: ChanterNote | null;
  /** The one name that Tab comes to. */
  readonly tabStop: ChanterNote;
  /** On a phone, the section that is in view. */
  readonly section: string;
}

interface LabelColumn extends LabelMarks, PitchScene {
  readonly compact: boolean;
}

/** The rows' names, their concert pitches, cents off the band, the two scales, and the drones. Written again only when something of it is another. */
export function drawLabels(pitch: PitchScene, marks: LabelMarks) {
  return guard([pitch, ...Object.values(marks)], () => drawColumn({ ...pitch, ...marks, compact: pitch.measures === PHONE }));
}

function drawColumn(column: LabelColumn) {
  const { rows, measures, compact } = column;
  return html`
    <svg class="scales" aria-hidden="true">${compact ? drawTicks(column) : drawScales(column)}${drawDroneLines(column)}</svg>
    <div class="heads" aria-hidden="true">
      ${compact ? html`<span class="section-name">${column.section}</span>` : html`<span>Chanter</span><span class="band-head">Band, and cents off it</span>`}
    </div>
    <div class="names" role="group" aria-label="Chanter notes. Press one to hear it.">${rows.map((row) => drawName(row, column))}</div>
    ${drawDroneNames(column, measures.chords + rowsHeight(measures))}
  `;
}

function drawName(row: GridRow, column: LabelColumn) {
  const classes = [
    "name",
    row.crossFingered ? "crossed" : "",
    row.note === column.chosen ? "chosen" : row.note === column.hovered ? "hovered" : "",
    row.note === column.sounding ? "sounding" : "",
  ];
  return html`<button
    type="button"
    class=${classes.join(" ").trim()}
    data-note=${row.note}
    tabindex=${row.note === column.tabStop ? 0 : -1}
    style=${styleMap({ top: `${row.labelY}px` })}
  ><span class="heard">${spokenRow(row)}</span><span class="written" aria-hidden="true">${row.name}</span>${
    column.compact ? nothing : html`<span class="concert" aria-hidden="true">${shownPitch(row.concert)}</span>`
  }<span class=${Math.abs(row.offBand) > NOTICED ? "cents off" : "cents"} aria-hidden="true">${shownCents(row.offBand)}</span></button>`;
}

/** Each note is one stroke from its own height to the band's semitone: level is in tune, sloping is off by what is seen. */
function drawScales({ rows, measures }: LabelColumn) {
  const chanter = measures.labels - CHANTER_SCALE;
  const band = measures.labels - BAND_SCALE;
  const head = measures.chords + 4;
  const foot = measures.chords + rowsHeight(measures) - 4;
  const stroke = (row: GridRow): string => `M${chanter} ${row.y}h7L${chanter + 21} ${row.bandY}H${band}`;
  return svg`
    <path class="scale" d=${`M${chanter} ${head}V${foot}M${band} ${head}V${foot}`}></path>
    <path class="semitone" d=${bareSemitones(rows, measures)
      .map((y) => `M${band - 5} ${y}h5`)
      .join("")}></path>
    <path class="slope" d=${rows
      .filter((row) => !row.crossFingered)
      .map(stroke)
      .join("")}></path>
    <path class="slope broken" d=${rows
      .filter((row) => row.crossFingered)
      .map(stroke)
      .join("")}></path>
  `;
}

/** On a phone there is room for a tick only, from the cents to the row. */
function drawTicks({ rows, measures }: LabelColumn) {
  return svg`<path class="slope" d=${rows.map((row) => `M${measures.labels - 9} ${row.y}h9`).join("")}></path>`;
}

function drawDroneLines({ setup, measures, compact }: LabelColumn) {
  const from = compact ? 14 : measures.labels - CHANTER_SCALE;
  return droneLines(setup, measures).map(
    ({ y, thick }) => svg`<path class=${thick ? "drone bass" : "drone"} d=${`M${from} ${y}H${measures.labels}`}></path>`,
  );
}

/** The drones' lines: those an octave or so under low A on top, the lowest at the foot and thicker. Heights are px from the grid's top. */
export function droneLines(setup: PipeSetup, measures: GridMeasures): readonly { readonly y: number; readonly thick: boolean }[] {
  const drones = soundingDrones(setup);
  const lowest = drones[0];
  if (lowest === undefined) return [];
  const head = measures.chords + rowsHeight(measures);
  const higher = drones.slice(1);
  return [...higher.map((_, index) => ({ y: head + 8 + index * 5, thick: false })), { y: head + measures.drones - 7, thick: true }];
}

function drawDroneNames({ setup, compact }: LabelColumn, top: number) {
  const drones = soundingDrones(setup);
  if (compact)
    return html`<div class="drones compact" style=${styleMap({ top: `${top}px` })}>${drones.length === 0 ? "no drones" : "drones"}</div>`;
  const groups = droneGroups(drones);
  return html`<div class=${groups.length > 2 ? "drones many" : "drones"} style=${styleMap({ top: `${top}px` })}>
    ${drones.length === 0 ? html`<span class="drone-name">Drones off</span>` : groups.map((group) => drawDroneName(group, setup))}
  </div>`;
}

function drawDroneName(group: readonly Drone[], setup: PipeSetup) {
  const drone = group[0] as Drone;
  const name = group.length > 1 ? `${drone.name}s` : drone.name;
  return html`<span class="drone-name">${name.slice(0, 1).toUpperCase() + name.slice(1)}</span
    ><span class="drone-pitch">${shownPitch(droneConcertPitch(setup, drone))}</span><span class="drone-hertz">${droneHertz(setup, drone).toFixed(1)} Hz</span>`;
}

/** Drones of one name and pitch stand together, the highest first. */
function droneGroups(drones: readonly Drone[]): readonly (readonly Drone[])[] {
  const groups = new Map<string, Drone[]>();
  for (const drone of [...drones].reverse()) {
    const key = `${drone.name} ${drone.ratio.join("/")}`;
    groups.set(key, [...(groups.get(key) ?? []), drone]);
  }
  return [...groups.values()];
}
