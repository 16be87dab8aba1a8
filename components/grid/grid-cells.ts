import { html } from "lit";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { PipeBar } from "../../src/score/bar.ts";
import type { Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { eventAt } from "../../src/score/placed-events.ts";
import type { Hertz } from "../../src/units/hertz.ts";
import type { Ticks } from "../../src/units/ticks.ts";
import { styleMap } from "../shared/style-map.ts";
import { columnsOf } from "./grid-columns.ts";
import type { GridStep } from "./grid-step.ts";
import { type CellFacts, spokenCell } from "./spoken-cell.ts";

/** All that the cells of one bar are made of. */
export interface CellBar {
  readonly bar: PipeBar;
  readonly frame: Frame;
  readonly index: number;
  /** As the reader counts. */
  readonly number: number;
  /** Px: from the start of the score, and how wide. */
  readonly left: number;
  readonly width: number;
  /** How many columns stand before the bar. */
  readonly columnsBefore: number;
  readonly step: GridStep;
  readonly carried: ChanterNote | null;
  /** How long a note that begins in the bar lasts with all it is tied to, in ticks. */
  readonly lengthFrom: (at: number) => number;
  readonly setup: PipeSetup;
  readonly bandA: Hertz;
  /** Findings in the bar: their numbers and where. */
  readonly findings: readonly { readonly number: number; readonly at: number }[];
  /** The column the keys are on, in ticks from the bar's start, and the row there; null when it is in another bar. */
  readonly caret: { readonly at: number; readonly row: ChanterNote } | null;
  /** The row that an empty cell speaks of; `null` in a bar that has none. */
  readonly row: ChanterNote | null;
}

/** One cell a column, with its spoken name; only the one the keys are on is a tab stop. */
export function drawCells(cells: CellBar) {
  const { frame, index, left, width, caret } = cells;
  const length = frameTicks(frame);
  const columns = columnsOf(cells.bar, frame, cells.step);
  return columns.map((at, column) => {
    const end = columns[column + 1] ?? length;
    const here = caret?.at === at;
    return html`<div
      role="gridcell"
      data-bar=${index}
      data-at=${at}
      tabindex=${here ? 0 : -1}
      aria-colindex=${cells.columnsBefore + column + 1}
      aria-label=${spokenCell(cellFacts(cells, at, end), cells.setup, cells.bandA)}
      style=${styleMap({ left: `${left + (at / length) * width}px`, width: `${((end - at) / length) * width}px` })}
    ></div>`;
  });
}

/** What one column is, in facts. */
export function cellFacts(cells: CellBar, at: number, end: number): CellFacts {
  const placed = eventAt(cells.bar, at as Ticks);
  const findings = cells.findings.filter((finding) => finding.at >= at && finding.at < end).map(({ number }) => number);
  const facts = { barNumber: cells.number, frame: cells.frame, at, findings };
  if (placed?.event.kind === "note") {
    const { event } = placed;
    const begins = placed.at === at && !(placed.index === 0 && isTiedOn(cells));
    const { note, gracenotes, strikeIn, cutOff } = event;
    return {
      ...facts,
      here: {
        kind: "note",
        note,
        ticks: begins ? cells.lengthFrom(at) : event.ticks,
        begins,
        gracenotes,
        before: noteUpTo(cells, placed.at),
        strikeIn,
        cutOff,
      },
    };
  }
  const sounding = noteUpTo(cells, at);
  if (sounding !== null) return { ...facts, here: { kind: "held-rest", note: sounding } };
  return { ...facts, here: { kind: "empty", row: cells.row ?? "low-a" } };
}

/** Whether the bar's first note goes on with what sounds into it, without anything between. */
function isTiedOn({ bar, carried }: CellBar): boolean {
  const first = bar.events[0];
  return first?.kind === "note" && first.note === carried && first.gracenotes.length === 0 && !first.strikeIn;
}

function noteUpTo({ bar, carried }: CellBar, at: number): ChanterNote | null {
  let sounding = carried;
  let time = 0;
  for (const event of bar.events) {
    if (time >= at) break;
    if (event.kind === "note") sounding = event.cutOff ? null : event.note;
    time += event.ticks;
  }
  return sounding;
}
