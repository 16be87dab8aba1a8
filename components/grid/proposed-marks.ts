import { nothing, svg } from "lit";
import { carriedInto } from "../../src/score/carried-note.ts";
import type { BarRange } from "../../src/score/edit.ts";
import { frameTicks } from "../../src/score/meter.ts";
import type { ProposedPlaces } from "../session/proposal.ts";
import { barPlaces } from "./bar-places.ts";
import { leadsFromBefore, traceOf } from "./bar-trace.ts";
import type { GridScene } from "./grid-scene.ts";
import { gracenoteLine, placeInBar } from "./ink-paths.ts";

/** Half the height of the dash at a note that is changed but shows no gracenotes. */
const DASH = 8;

/** What is proposed, over the trace: its gracenotes in steel; a dash where a note is tied on, or gives its gracenotes up. */
export function drawProposed(scene: GridScene, places: ProposedPlaces | null, { first, last }: BarRange) {
  if (places === null) return nothing;
  const lefts = barPlaces(scene.widths);
  const marks = [];
  for (let bar = first; bar <= last; bar += 1) {
    const { lines, dashes } = marksOfBar(scene, bar, places);
    if (lines === "" && dashes === "") continue;
    marks.push(
      svg`<g transform=${`translate(${lefts[bar] ?? 0} 0)`}><path class="grace proposed" d=${lines}></path><path class="dash proposed" d=${dashes}></path></g>`,
    );
  }
  return marks;
}

function marksOfBar({ score, line, widths, pitch, measures }: GridScene, index: number, places: ProposedPlaces) {
  const [bar, frame] = [line.bars[index], score.frames[index]];
  if (bar === undefined || frame === undefined) return { lines: "", dashes: "" };
  const scale = { frame, width: widths[index] ?? 0, height: pitch.height, speaks: pitch.speaks, ink: measures.ink };
  const trace = traceOf(bar, carriedInto(line.bars, index), leadsFromBefore(line.bars[index + 1]));
  /** Gracenotes before the first beat of the next bar lie in this one. */
  const isProposed = (at: number): boolean =>
    at < frameTicks(frame) ? places.get(index)?.has(at) === true : places.get(index + 1)?.has(at - frameTicks(frame)) === true;
  const graced = trace.changes.filter(({ at, gracenotes }) => gracenotes.length > 0 && isProposed(at));
  const plain = trace.strokes.filter(({ from, onBeat }) => onBeat === 0 && isProposed(from) && !graced.some(({ at }) => at === from));
  return {
    lines: graced.map((change) => gracenoteLine(change, scale)).join(""),
    dashes: plain.map(({ from, note }) => `M${placeInBar(scale, from) + 1} ${scale.height(note) - DASH}v${DASH * 2}`).join(""),
  };
}
