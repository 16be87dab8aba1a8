import { Element, Stave } from "vexflow/core";
import { Measurer } from "./measurer.ts";
import { rememberMetrics } from "./metrics-memo.ts";
import { Recorder } from "./recorder.ts";

/** VexFlow made ready once: a staff whose top line is y 0 and on which x is what the tick context says, and the recorder its notes draw into. */
export interface Desk {
  readonly stave: Stave;
  readonly recorder: Recorder;
}

let desk: Desk | null = null;

/** The staff every bar is engraved on, one after the other: it has no state that a bar leaves behind. */
export function engravingDesk(): Desk {
  if (desk !== null) return desk;
  rememberMetrics();
  // The measurer is as much of a canvas as VexFlow uses of one.
  Element.setTextMeasurementCanvas(new Measurer() as unknown as Parameters<typeof Element.setTextMeasurementCanvas>[0]);
  const recorder = new Recorder();
  const stave = new Stave(0, 0, 1000, { spaceAboveStaffLn: 0, leftBar: false, rightBar: false });
  stave.setContext(recorder);
  // A note stands at staff start + padding + its own x.
  stave.setNoteStartX(-STAVE_PADDING);
  desk = { stave, recorder };
  return desk;
}

/** What VexFlow adds to every note's x (`Stave.padding` of its metrics). */
const STAVE_PADDING = 12;
