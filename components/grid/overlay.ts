import { nothing, svg } from "lit";
import { type ChanterNote, isCrossFingered } from "../../src/pipes/chanter-note.ts";
import type { PipeBar } from "../../src/score/bar.ts";
import { barAtTime, barStarts, momentAt, scoreTicks, timeOf } from "../../src/score/bar-starts.ts";
import { carriedInto } from "../../src/score/carried-note.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Frame } from "../../src/score/frame.ts";
import { findingsInBar } from "../../src/score/numbered-findings.ts";
import { eventAt } from "../../src/score/placed-events.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import { placeOfTime } from "./bar-places.ts";
import { comesAhead } from "./bar-trace.ts";
import { type HeldNote, heldNoteAt } from "./chosen-notes.ts";
import type { Ghost } from "./gesture.ts";
import { type GridMeasures, rowsHeight } from "./grid-measures.ts";
import { areaPath, gracenoteWidth } from "./ink-paths.ts";

/** Where things of the whole score stand. */
export interface ScoreScale {
  readonly score: Score;
  readonly line: PipeLine;
  readonly widths: readonly number[];
  readonly measures: GridMeasures;
  readonly height: (note: ChanterNote) => number;
}

/** A note's ink, px from the start of the score. */
export interface InkArea {
  readonly left: number;
  readonly right: number;
  readonly y: number;
}

/** Where a note with all it is tied to stands: from after the gracenotes on its beat to before those that take its end. */
export function areaOf(scale: ScoreScale, held: HeldNote): InkArea {
  const { score, widths } = scale;
  return {
    left: placeOfTime(score.frames, widths, held.from) + gracedStart(scale, held),
    right: placeOfTime(score.frames, widths, held.to) - gracedEnd(scale, held),
    y: scale.height(held.note),
  };
}

/** How wide the gracenotes on a note's own beat are, px. */
function gracedStart({ score, line, widths }: ScoreScale, { event, from }: HeldNote): number {
  const { bar, at } = momentAt(score.frames, from);
  if (comesAhead(event) && noteBefore(line, bar, at) !== null) return 0;
  const count = event.gracenotes.length;
  return count * gracenoteWidth({ frame: score.frames[bar] as Frame, width: widths[bar] ?? 0 }, count, event.ticks);
}

/** How wide the gracenotes are that come before the beat of the next note, px. */
function gracedEnd({ score, line, widths }: ScoreScale, { to }: HeldNote): number {
  const { bar, at } = momentAt(score.frames, to - 1);
  const last = eventAt(line.bars[bar] as PipeBar, at);
  const next = to >= scoreTicks(score.frames) ? null : momentAt(score.frames, to);
  const following = next === null ? null : eventAt(line.bars[next.bar] as PipeBar, next.at);
  if (following?.event.kind !== "note" || !comesAhead(following.event)) return 0;
  if (last?.event.kind !== "note" || last.event.cutOff) return 0;
  const count = following.event.gracenotes.length;
  return count * gracenoteWidth({ frame: score.frames[bar] as Frame, width: widths[bar] ?? 0 }, count, last.event.ticks);
}

/** A stretch that is chosen or being chosen: a wash behind the trace, a rule at both ends. */
export function drawStretch(scale: ScoreScale, stretch: { readonly from: number; readonly to: number } | null, top: number, foot: number) {
  if (stretch === null) return nothing;
  const left = placeOfTime(scale.score.frames, scale.widths, stretch.from);
  const right = placeOfTime(scale.score.frames, scale.widths, stretch.to);
  return svg`<rect class="wash" x=${left} y=${top} width=${Math.max(0, right - left)} height=${foot - top}></rect>
    <path class="wash-rule" d=${`M${left} ${top}V${foot}M${right} ${top}V${foot}`}></path>`;
}

/** The chosen note: steel ink and a ring at each end. */
export function drawChosen(scale: ScoreScale, held: HeldNote | null) {
  if (held === null) return nothing;
  const { left, right, y } = areaOf(scale, held);
  const path = areaPath(left + 1.5, Math.max(left + 2.5, right - 1.5), y, scale.measures.ink - 3);
  const radius = scale.measures.handle;
  return svg`
    ${isCrossFingered(held.note) ? svg`<path class="chosen-hatch" fill="url(#hatch)" d=${path}></path>` : svg`<path class="chosen-ink" d=${path}></path>`}
    <circle class="handle" cx=${left} cy=${y} r=${radius}></circle>
    <circle class="handle" cx=${right} cy=${y} r=${radius}></circle>
  `;
}

/** The note that sounds now: 3 px thicker, steel, a halo around it. */
export function drawSounding(scale: ScoreScale, held: HeldNote | null) {
  if (held === null) return nothing;
  const { left, right, y } = areaOf(scale, held);
  const path = areaPath(left + 2, Math.max(left + 3, right - 2), y, scale.measures.ink - 3);
  return svg`<path class="halo" d=${path}></path><path class="sounding-ink" d=${path}></path>`;
}

/** Where a note would go. */
export function drawGhost(scale: ScoreScale, ghost: Ghost | null) {
  if (ghost === null || ghost.kind !== "note") return nothing;
  const left = placeOfTime(scale.score.frames, scale.widths, ghost.from);
  const right = placeOfTime(scale.score.frames, scale.widths, ghost.to);
  const thick = scale.measures.ink + 1;
  return svg`<rect class="ghost" x=${left + 0.5} y=${scale.height(ghost.note) - thick / 2} width=${Math.max(2, right - left - 1)} height=${thick} rx="1.5"></rect>`;
}

/** On an empty sketch: where the chanter will start, and what sounds already. */
export function drawFirstStrike(scale: ScoreScale) {
  const y = scale.height("low-a");
  const foot = scale.measures.chords + rowsHeight(scale.measures);
  return svg`<path class="upright" d=${`M1 ${y - 10}v20`}></path>
    <text class="word" x="9" y=${y - 13}>strike-in</text>
    ${scale.score.frames[0]?.chords.length === 0 ? svg`<text class="place" x="6" y=${foot + 28}>The drones never stop.</text>` : nothing}`;
}

/** The ring around what has the focus, 2 px off it. */
export function drawFocus(scale: ScoreScale, area: InkArea | null) {
  if (area === null) return nothing;
  const thick = scale.measures.ink + 8;
  return svg`<rect class="focus" x=${area.left - 4} y=${area.y - thick / 2} width=${area.right - area.left + 8} height=${thick} rx="3"></rect>`;
}

const RING = 7.5;
const CLEAR = 6;

/** Numbers of findings, each in a ring clear of the ink; those of bars out of sight are left out. */
export function drawFindings(scale: ScoreScale, findings: readonly Finding[], chosen: Finding | null, seen: BarRange, foot: number) {
  const taken = new Map<string, number>();
  const bars = Array.from({ length: seen.last - seen.first + 1 }, (_, index) => seen.first + index);
  const inView = bars.flatMap((bar) => findingsInBar(findings, scale.line.id, bar));
  return inView.map(({ finding, number }) => {
    const place = ringPlace(scale, finding, foot);
    const key = `${Math.round(place.x)} ${Math.round(place.y)}`;
    const before = taken.get(key) ?? 0;
    taken.set(key, before + 1);
    const x = place.x + before * (RING * 2 + 3);
    return svg`<g class=${finding === chosen ? "finding chosen" : "finding"}><circle cx=${x} cy=${place.y} r=${RING}></circle><text x=${x} y=${place.y + 4}>${number}</text></g>`;
  });
}

/** Under the note, or over it where fingers come from below or the foot is near. */
function ringPlace(scale: ScoreScale, { address }: Finding, foot: number): { readonly x: number; readonly y: number } {
  const { score, line, widths, measures, height } = scale;
  const time = timeOf(score.frames, address);
  const held = heldNoteAt(score, line.id, time);
  const away = measures.ink / 2 + CLEAR + RING;
  if (held === null) {
    const carried = noteBefore(line, address.bar, address.at) ?? "low-a";
    const rest = line.bars[address.bar]?.events.find((event) => event.kind === "rest");
    const half = (rest?.ticks ?? 0) / 2;
    return { x: placeOfTime(score.frames, widths, time + half), y: height(carried) - away };
  }
  const { left, right, y } = areaOf(scale, held);
  const before = held.from === 0 ? null : heldNoteAt(score, line.id, held.from - 1);
  const fromBelow = before !== null && height(before.note) > y && held.event.gracenotes.length === 0;
  const over = fromBelow || y + away + RING > foot;
  return { x: Math.min(left + 9, (left + right) / 2), y: over ? y - away : y + away };
}

/** The note that sounds on at a moment where no note stands. */
function noteBefore(line: PipeLine, bar: number, at: number): ChanterNote | null {
  let sounding = carriedInto(line.bars, bar);
  let time = 0;
  for (const event of line.bars[bar]?.events ?? []) {
    if (time >= at) break;
    if (event.kind === "note") sounding = event.cutOff ? null : event.note;
    time += event.ticks;
  }
  return sounding;
}

/** The note that sounds at a time, the chanter going on through rests. */
export function soundingNote(scale: ScoreScale, time: number): ChanterNote | null {
  const held = heldNoteAt(scale.score, scale.line.id, time);
  if (held !== null) return held.note;
  const bar = barAtTime(scale.score.frames, time);
  return noteBefore(scale.line, bar, time - (barStarts(scale.score.frames)[bar] ?? 0));
}
