import { html, svg } from "lit";
import { guard } from "lit/directives/guard.js";
import { repeat } from "lit/directives/repeat.js";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeBar } from "../../src/score/bar.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import { barAtTime, barStarts, scoreTicks } from "../../src/score/bar-starts.ts";
import { carriedInto, carriedThrough } from "../../src/score/carried-note.ts";
import { chordHeldInto, chordSpans } from "../../src/score/chords-in-force.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { findingsInBar } from "../../src/score/numbered-findings.ts";
import { lengthOf } from "../../src/score/placed-events.ts";
import { styleMap } from "../shared/style-map.ts";
import { drawGround, drawInk } from "./bar-drawing.ts";
import { barPlaces, totalWidth } from "./bar-places.ts";
import { leadsFromBefore, traceOf } from "./bar-trace.ts";
import { AFTER_LAST } from "./caret-marks.ts";
import { heldNoteAt } from "./chosen-notes.ts";
import { drawCells } from "./grid-cells.ts";
import { columnsBefore } from "./grid-columns.ts";
import type { Caret } from "./grid-host.ts";
import type { GridScene } from "./grid-scene.ts";
import type { GridStep } from "./grid-step.ts";

/*
 * Bar by bar, and each bar again only when something it is drawn from is another object: scores share the bars an edit did not touch, so an
 * edit draws one bar, and scrolling draws those that come into sight.
 */

/** The ground of every bar in a range. */
export function groundOfBars(scene: GridScene, range: BarRange) {
  const { score, widths, measures, pitch } = scene;
  const last = score.frames.length - 1;
  return eachBar(scene, indexes(range), (index) => {
    const frame = score.frames[index] as Frame;
    const width = widths[index] ?? 0;
    const number = barNumber(score, index);
    const isLast = index === last;
    return guard([frame, chordHeldInto(score.frames, index), width, number, isLast, pitch], () =>
      drawGround({
        frame,
        chords: chordSpans(score.frames, index),
        width,
        number,
        isLast,
        rows: pitch.rows,
        setup: pitch.setup,
        measures,
      }),
    );
  });
}

/** The trace of every bar in a range. */
export function inkOfBars(scene: GridScene, range: BarRange) {
  const { score, line, widths, measures, pitch } = scene;
  const carried = carriedOver(scene, range);
  return eachBar(scene, indexes(range), (index) => {
    const bar = line.bars[index] as PipeBar;
    const frame = score.frames[index] as Frame;
    const width = widths[index] ?? 0;
    const into = carried[index - range.first] ?? null;
    const next = leadsFromBefore(line.bars[index + 1]);
    return guard([bar, frame, width, into, next, pitch], () =>
      drawInk(
        traceOf(bar, into, next),
        { frame, width, height: pitch.height, speaks: pitch.speaks, ink: measures.ink },
        pitch.foot,
        pitch.setup,
      ),
    );
  });
}

/** What the cells tell of. */
export interface CellEvents {
  readonly keydown: (event: KeyboardEvent) => void;
  readonly focusin: (event: FocusEvent) => void;
  readonly focusout: () => void;
  readonly click: (event: Event) => void;
}

/** The grid for those who hear it: one row of cells, a column each, and one after the last bar. */
export function drawCellLayer(
  scene: GridScene,
  range: BarRange,
  step: GridStep,
  caret: Caret,
  findings: readonly Finding[],
  events: CellEvents,
) {
  const { score, line, widths } = scene;
  const columns = (columnsBefore(line, score.frames, step).at(-1) ?? 0) + 1;
  const atEnd = caret.time >= scoreTicks(score.frames);
  const caretBar = atEnd ? score.frames.length : barAtTime(score.frames, caret.time);
  return html`<div
    role="grid"
    aria-label=${`Scale grid, ${line.name}`}
    aria-rowcount="1"
    aria-colcount=${columns}
    @keydown=${events.keydown}
    @focusin=${events.focusin}
    @focusout=${events.focusout}
    @click=${events.click}
  ><div role="row" aria-rowindex="1">
      ${cellsOfBars(scene, range, step, caret, caretBar, findings)}
      <div
        role="gridcell"
        tabindex=${atEnd ? 0 : -1}
        aria-colindex=${columns}
        aria-label="After the last bar. A letter goes on in a new bar."
        style=${styleMap({ left: `${totalWidth(widths)}px`, width: `${AFTER_LAST}px` })}
      ></div>
    </div></div>`;
}

/** The cells of every bar in sight, and of the one the keys are in: its cell has the focus and must not go. */
function cellsOfBars(scene: GridScene, range: BarRange, step: GridStep, caret: Caret, caretBar: number, findings: readonly Finding[]) {
  const { score, line, widths, pitch } = scene;
  const before = columnsBefore(line, score.frames, step);
  const list = indexes(range);
  if (caretBar < range.first) list.unshift(caretBar);
  if (caretBar > range.last && caretBar < score.frames.length) list.push(caretBar);
  const places = barPlaces(widths);
  return repeat(
    list,
    (index) => index,
    (index) => {
      const bar = line.bars[index] as PipeBar;
      const frame = score.frames[index] as Frame;
      const start = barStarts(score.frames)[index] ?? 0;
      const own = findingsIn(findings, line.id, index);
      const here = index === caretBar ? { at: caret.time - start, row: caret.note } : null;
      const carried = carriedInto(line.bars, index);
      const facts = {
        bar,
        frame,
        index,
        number: barNumber(score, index),
        left: places[index] ?? 0,
        width: widths[index] ?? 0,
        columnsBefore: before[index] ?? 0,
        step,
        carried,
        setup: pitch.setup,
        bandA: pitch.bandA,
        // Only an empty cell speaks of the row; elsewhere another row is no reason to say all cells anew.
        row: isFilled(bar, frame) ? null : caret.note,
      };
      const findingKey = own.map(({ number, at }) => `${number}@${at}`).join();
      return guard([...Object.values(facts), line.bars[index + 1], findingKey, here?.at ?? null], () =>
        drawCells({ ...facts, caret: here, findings: own, lengthFrom: (at) => lengthFrom(scene, start + at) }),
      );
    },
  );
}

/** Whether notes fill a bar, so that none of its cells is empty. */
function isFilled(bar: PipeBar, frame: Frame): boolean {
  return bar.events.every(({ kind }) => kind === "note") && lengthOf(bar) >= frameTicks(frame);
}

function lengthFrom({ score, line }: GridScene, time: number): number {
  const held = heldNoteAt(score, line.id, time);
  return held === null ? 0 : held.to - held.from;
}

function findingsIn(findings: readonly Finding[], line: string, bar: number): readonly { readonly number: number; readonly at: number }[] {
  return findingsInBar(findings, line, bar).map(({ number, finding }) => ({ number, at: finding.address.at }));
}

function eachBar(scene: GridScene, list: readonly number[], draw: (index: number) => unknown) {
  const places = barPlaces(scene.widths);
  return repeat(
    list,
    (index) => index,
    (index) => svg`<g transform=${`translate(${places[index] ?? 0} 0)`}>${draw(index)}</g>`,
  );
}

/** What sounds into each bar of a range. */
function carriedOver({ line }: GridScene, { first, last }: BarRange): readonly (ChanterNote | null)[] {
  const list: (ChanterNote | null)[] = [];
  let sounding = carriedInto(line.bars, first);
  for (let index = first; index <= last; index += 1) {
    list.push(sounding);
    sounding = carriedThrough(line.bars[index] as PipeBar, sounding);
  }
  return list;
}

function indexes({ first, last }: BarRange): number[] {
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}
