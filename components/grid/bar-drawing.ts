import { nothing, svg } from "lit";
import { droneInChord } from "../../src/pipes/drone-in-chord.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { chordPitchClasses } from "../../src/pitch/chord.ts";
import { withSigns } from "../../src/pitch/spelling.ts";
import type { ChordSpan } from "../../src/score/chords-in-force.ts";
import type { Frame } from "../../src/score/frame.ts";
import { beatsOf, frameTicks, meterOffset } from "../../src/score/meter.ts";
import type { BarTrace, Upright } from "./bar-trace.ts";
import { type GridMeasures, rowsHeight } from "./grid-measures.ts";
import type { GridRow } from "./grid-rows.ts";
import { type BarScale, inkPaths, placeInBar } from "./ink-paths.ts";
import { passingSpecks } from "./passing-marks.ts";

/** Half the height of the upright at a strike-in or a cut-off. */
const UPRIGHT = 10;

/** Under this height (px from the grid's foot) words go above a note instead of under it. */
const FOOTROOM = 40;

/** The ring that says where a chord begins. */
const RING = 2.6;

/** What a bar shows under the trace. */
export interface BarGround {
  readonly frame: Frame;
  readonly chords: readonly ChordSpan[];
  readonly width: number;
  /** As the reader counts. */
  readonly number: number;
  readonly isLast: boolean;
  readonly rows: readonly GridRow[];
  readonly setup: PipeSetup;
  readonly measures: GridMeasures;
}

/** The rules of time, the chord's rows, its symbol and what the drones are in it. */
export function drawGround(bar: BarGround) {
  const { frame, width, measures } = bar;
  const foot = measures.chords + rowsHeight(measures);
  const lines = chordLines(bar);
  return svg`
    <path class="beat" d=${beatRules(frame, width, measures.chords, foot)}></path>
    <path class=${frame.section === null && frame.tune === null ? "bar-rule" : "section-rule"} d=${`M0 4V${foot}`}></path>
    ${bar.isLast ? svg`<path class="bar-rule" d=${`M${width} 4V${foot}`}></path>` : nothing}
    ${repeatSigns(bar, foot)}
    ${lines.rows === "" ? nothing : svg`<path class="chord-row" d=${lines.rows}></path><path class="chord-ring" d=${lines.rings}></path>`}
    ${drawHead(bar)}
    ${bar.chords.filter(({ begins }) => begins).map((span) => drawDronePlace(span, bar, foot))}
  `;
}

function beatRules(frame: Frame, width: number, head: number, foot: number): string {
  const offset = meterOffset(frame);
  let at = -offset;
  const rules: string[] = [];
  for (const beat of beatsOf(frame.meter)) {
    if (at > 0 && at < frameTicks(frame)) rules.push(`M${placeInBar({ frame, width }, at)} ${head}V${foot}`);
    at += beat;
  }
  return rules.join("");
}

function repeatSigns({ frame, width, measures }: BarGround, foot: number) {
  const middle = (measures.chords + foot) / 2;
  const dots = (x: number) =>
    svg`<circle class="repeat-dot" cx=${x} cy=${middle - 9} r="2.5"></circle><circle class="repeat-dot" cx=${x} cy=${middle + 9} r="2.5"></circle>`;
  return svg`
    ${frame.repeatStart ? svg`<path class="repeat-rule" d=${`M1.5 ${measures.chords}V${foot}`}></path>${dots(8)}` : nothing}
    ${frame.repeatEnd ? svg`<path class="repeat-rule" d=${`M${width - 1.5} ${measures.chords}V${foot}`}></path>${dots(width - 8)}` : nothing}
    ${frame.ending === null ? nothing : svg`<path class="ending" d=${`M1 ${measures.chords - 1}V${measures.chords - 6}H${width - 2}`}></path>`}
  `;
}

function chordLines({ chords, rows, frame, width }: BarGround): { readonly rows: string; readonly rings: string } {
  let lines = "";
  let rings = "";
  for (const span of chords) {
    const classes = chordPitchClasses(span.symbol) ?? [];
    const from = placeInBar({ frame, width }, span.from);
    const to = placeInBar({ frame, width }, span.to);
    for (const row of rows) {
      if (!classes.includes(row.pitchClass)) continue;
      lines += `M${from} ${row.y}H${to}`;
      if (span.begins) rings += `M${from - RING} ${row.y}a${RING} ${RING} 0 1 0 ${RING * 2} 0a${RING} ${RING} 0 1 0 ${-RING * 2} 0z`;
    }
  }
  return { rows: lines, rings };
}

/** How wide a letter of a name is at most, on the average, px. */
const LETTER = 7.8;

function fitting(name: string, room: number): string {
  return name.length * LETTER <= room ? name : "";
}

/** Chord symbols, the tune's and the section's name, and the bar's number. */
function drawHead({ chords, frame, width, number, measures }: BarGround) {
  const base = measures.chords - 11;
  const struck = chords.filter(({ begins }) => begins);
  const first = struck[0];
  const second = struck[1];
  const ending = frame.ending === null ? "" : `${frame.ending}.`;
  const symbolAtStart = first?.from === 0 ? withSigns(first.symbol) : "";
  const end = second === undefined ? width - 28 : placeInBar({ frame, width }, second.from);
  const room = end - (symbolAtStart === "" ? 8 : 44);
  // What has no room here stands on the ribbon; half a name would say less than none.
  const tune = fitting(frame.tune?.title ?? "", room);
  const section = fitting(frame.section?.name ?? "", room - (tune === "" ? 0 : tune.length * LETTER + 16));
  return svg`
    <text class="head" x="5" y=${base}><tspan class="chord">${symbolAtStart}</tspan>${
      tune === "" ? nothing : svg`<tspan class="tune" dx=${symbolAtStart === "" ? 0 : 16}>${tune}</tspan>`
    }${section === "" ? nothing : svg`<tspan class="section" dx=${symbolAtStart === "" && tune === "" ? 0 : 16}>${section}</tspan>`}</text>
    ${struck
      .filter(({ from }) => from > 0)
      .map((span) => svg`<text class="chord" x=${placeInBar({ frame, width }, span.from) + 5} y=${base}>${withSigns(span.symbol)}</text>`)}
    <text class="number" x=${width - 6} y=${base}>${ending === "" ? nothing : svg`<tspan class="ending-number">${ending} </tspan>`}${number}</text>
  `;
}

function drawDronePlace(span: ChordSpan, { setup, frame, width }: BarGround, foot: number) {
  const place = droneInChord(setup, span.symbol);
  if (place === null) return nothing;
  const words = place.rubs ? `${place.degree}, rubs` : place.degree;
  return svg`<text class=${place.rubs ? "place rubs" : "place"} x=${placeInBar({ frame, width }, span.from) + 6} y=${foot + 28}>${words}</text>`;
}

/** A bar of the trace. */
export function drawInk(trace: BarTrace, scale: BarScale, foot: number, setup: PipeSetup) {
  const paths = inkPaths(trace, scale);
  const path = (kind: string, data: string) => (data === "" ? nothing : svg`<path class=${kind} d=${data}></path>`);
  return svg`
    ${path("grace", paths.gracenotes)}${path("thread", paths.threads)}${path("rest", paths.rests)}
    ${path("passing", passingSpecks(trace, scale, setup))}
    ${path("ink", paths.held)}${path("hollow", paths.hollow)}${path("outside", paths.outside)}${path("through", paths.through)}
    ${trace.uprights.map((upright) => drawUpright(upright, scale, foot))}
  `;
}

function drawUpright(upright: Upright, scale: BarScale, foot: number) {
  const x = placeInBar(scale, upright.at) + (upright.kind === "strike-in" ? 1 : -1);
  const y = scale.height(upright.note);
  const isStart = upright.kind === "strike-in";
  const under = !isStart && y < foot - FOOTROOM;
  return svg`
    <path class="upright" d=${`M${x} ${y - UPRIGHT}v${UPRIGHT * 2}`}></path>
    <text class=${isStart ? "word" : "word ends"} x=${isStart ? x + 8 : x + 1} y=${under ? y + 22 : y - 13}>${isStart ? "strike-in" : "cut-off"}</text>
  `;
}
