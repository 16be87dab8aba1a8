import { Accidental, Element, type Modifier, type ModifierContext, type Note, type Stave } from "vexflow/core";
import { Measurer } from "./measurer.ts";
import { rememberMetrics } from "./metrics-memo.ts";
import { Recorder } from "./recorder.ts";

/*
 * As much of VexFlow's staff and modifier context as a single line of notes asks for. Its own ones know every clef, text, ornament and
 * bar line there is: two thirds of the library, which we neither draw nor want to download. The build leaves them out (scripts/lean-vexflow.mjs).
 */

/** VexFlow's own distance between lines. */
const SPACE = 10;

/** What VexFlow adds to every note's x (`Stave.padding` of its metrics). */
const PADDING = 12;

/** A staff whose top line is y 0, and on which x is what the tick context says. */
class PlainStave {
  readonly #recorder: Recorder;

  constructor(recorder: Recorder) {
    this.#recorder = recorder;
  }

  getContext(): Recorder {
    return this.#recorder;
  }

  getNoteStartX(): number {
    return -PADDING;
  }

  getNumLines(): number {
    return 5;
  }

  getSpacingBetweenLines(): number {
    return SPACE;
  }

  /** Counted from the top line. */
  getYForLine(line: number): number {
    return line * SPACE;
  }

  /** Counted from the line under the staff: the bottom line is 1, the top line 5. */
  getYForNote(line: number): number {
    return (5 - line) * SPACE;
  }

  getDefaultLedgerLineStyle(): { readonly lineWidth: number } {
    return { lineWidth: 1.6 };
  }
}

/** What stands beside one note: only accidentals do, since dots and gracenotes are ours. */
class PlainModifiers {
  readonly #accidentals: Accidental[] = [];
  readonly #state = { leftShift: 0, rightShift: 0, textLine: 0, topTextLine: 0 };
  #formatted = false;

  addMember(member: Note | Modifier): this {
    if (member instanceof Accidental) this.#accidentals.push(member);
    member.setModifierContext(this as unknown as ModifierContext);
    return this;
  }

  preFormat(): void {
    if (!this.#formatted) Accidental.format(this.#accidentals, this.#state);
    this.#formatted = true;
  }

  getWidth(): number {
    return this.#state.leftShift + this.#state.rightShift;
  }

  getState(): { readonly leftShift: number; readonly rightShift: number } {
    return this.#state;
  }
}

/** VexFlow made ready once: the staff that every bar is engraved on, one after the other, and the recorder its notes draw into. */
export interface Desk {
  readonly stave: Stave;
  readonly recorder: Recorder;
}

let desk: Desk | null = null;

/** The desk. It has no state that a bar leaves behind. */
export function engravingDesk(): Desk {
  if (desk !== null) return desk;
  rememberMetrics();
  // The measurer is as much of a canvas as VexFlow uses of one.
  Element.setTextMeasurementCanvas(new Measurer() as unknown as Parameters<typeof Element.setTextMeasurementCanvas>[0]);
  const recorder = new Recorder();
  desk = { stave: new PlainStave(recorder) as unknown as Stave, recorder };
  return desk;
}

/** A context for the accidentals of one note. */
export function modifiersOfNote(): ModifierContext {
  return new PlainModifiers() as unknown as ModifierContext;
}
