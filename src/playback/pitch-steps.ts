import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { hertzOf } from "../pipes/sounding.ts";
import type { Address } from "../score/address.ts";
import type { Hertz } from "../units/hertz.ts";
import type { Seconds } from "../units/seconds.ts";
import { type NoteTimbre, timbreOn } from "./chanter-timbre.ts";
import { type GracenoteTiming, gracenoteLength } from "./gracenote-time.ts";

/** The chanter goes to a pitch and stays there until the next step: fingers move, the sound does not stop. */
export interface PitchStep {
  readonly at: Seconds;
  readonly hertz: Hertz;
  /**
   * Which note it sounds like; a gracenote's is the one it is named after. Upon the fingering beneath, a lifted finger sounds near that note and not
   * on it; how far off was never published that we know, so it is not made up here.
   */
  readonly note: ChanterNote;
  readonly timbre: NoteTimbre;
  readonly gracenote: boolean;
  /** The written note it belongs to. */
  readonly address: Address;
}

/** A note with what is played before it is held. */
export interface AdornedNote {
  readonly note: ChanterNote;
  /** In the order they are played. */
  readonly gracenotes: readonly PlainNote[];
  readonly start: Seconds;
  readonly end: Seconds;
  readonly address: Address;
}

/**
 * What one unbroken phrase sounds, step by step: notes that follow each other without a gap, their gracenotes taking their time from the note
 * itself or from the one before. Nothing before the first note can give time, so there they begin on the beat. Every step lasts.
 *
 *     on the beat      ──B──┃gBd──B────        before it      ──B──GdG┃──c────
 */
export function pitchSteps(phrase: readonly AdornedNote[], setup: PipeSetup, gracenotes: GracenoteTiming): readonly PitchStep[] {
  const steps: PitchStep[] = [];
  // What the note before has left once its own gracenotes are played; nothing before the first.
  let roomBefore = 0;
  for (const { note: held, gracenotes: group, address, start, end } of phrase) {
    const before = roomBefore > 0 && gracenotes.placementOf(group) === "before-beat";
    const each = gracenoteLength(group.length, before ? roomBefore : end - start, gracenotes);
    let at: number = before ? start - each * group.length : start;
    const step = (note: ChanterNote, gracenote: boolean) =>
      steps.push({ at: at as Seconds, hertz: hertzOf(setup, note), note, timbre: timbreOn(setup, note), gracenote, address });
    for (const gracenote of group) {
      step(gracenote, true);
      at += each;
    }
    if (before) at = start;
    step(held, false);
    roomBefore = end - at;
  }
  return steps;
}
