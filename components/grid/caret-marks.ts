import { scoreTicks } from "../../src/score/bar-starts.ts";
import { beatsOf, frameTicks } from "../../src/score/meter.ts";
import type { Score } from "../../src/score/score.ts";
import { placeOfTime } from "./bar-places.ts";
import { heldNoteAt, isEmpty } from "./chosen-notes.ts";
import type { Ghost } from "./gesture.ts";
import { columnEnd } from "./grid-columns.ts";
import type { Caret } from "./grid-host.ts";
import type { GridScene } from "./grid-scene.ts";
import type { GridStep } from "./grid-step.ts";
import { areaOf, type InkArea } from "./overlay.ts";

/** Room after the last bar for the word that adds one, px. */
export const AFTER_LAST = 44;

/** The ghost of the cell the keys are on, where it is empty; on an empty sketch the first note's. */
export function ghostAtCaret(scene: GridScene, { time, note }: Caret, focused: boolean, step: GridStep): Ghost | null {
  const { score, line } = scene;
  const isEnd = time >= scoreTicks(score.frames);
  if (focused && !isEnd && heldNoteAt(score, line.id, time) === null) {
    return { kind: "note", from: time, to: columnEnd(line, score.frames, time, step), note };
  }
  return isEmpty(score, line.id) ? { kind: "note", from: 0, to: firstBeat(score), note: "low-a" } : null;
}

/** What the focus ring goes round: the note the keys are on, or the step on their row. */
export function areaOfCaret(scene: GridScene, { time, note }: Caret, step: GridStep): InkArea {
  const { score, line, widths } = scene;
  const y = scene.height(note);
  const left = placeOfTime(score.frames, widths, time);
  if (time >= scoreTicks(score.frames)) return { left: left + 6, right: left + AFTER_LAST - 6, y };
  const held = heldNoteAt(score, line.id, time);
  if (held !== null) return areaOf(scene, held);
  return { left, right: placeOfTime(score.frames, widths, columnEnd(line, score.frames, time, step)), y };
}

function firstBeat({ frames }: Score): number {
  const frame = frames[0];
  return frame === undefined ? 0 : Math.min(frameTicks(frame), beatsOf(frame.meter)[0] ?? 0);
}
