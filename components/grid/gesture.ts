import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import { scoreTicks } from "../../src/score/bar-starts.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";
import { assertNever } from "../../src/units/assert-never.ts";
import { type Asked, stretchChosen } from "./asked.ts";
import type { HeldNote } from "./chosen-notes.ts";
import { type GridStep, nearestStep, stepEnd, stepStart } from "./grid-step.ts";
import { moveEnd, moveNote, moveStart, placeNote } from "./note-acts.ts";

/** Where the hand is: a time in ticks from the start of the score (not on any step), and the row nearest to it. */
export interface Hand {
  readonly time: number;
  readonly note: ChanterNote;
}

/** A press that has not been let go of. */
export type Gesture =
  /** Draws a note along its row. */
  | { readonly kind: "place"; readonly pressed: Hand }
  /** Takes a note elsewhere. */
  | { readonly kind: "move"; readonly held: HeldNote; readonly pressed: Hand }
  | { readonly kind: "start"; readonly held: HeldNote }
  | { readonly kind: "end"; readonly held: HeldNote }
  /** Chooses a stretch of time. */
  | { readonly kind: "stretch"; readonly pressed: Hand };

/** What the gesture would leave behind if the hand let go now, in ticks from the start of the score. */
export interface Ghost {
  readonly kind: "note" | "stretch";
  readonly from: number;
  readonly to: number;
  readonly note: ChanterNote;
}

/** What is seen while the hand is down. The score is not touched until it lets go. */
export function ghostOf(score: Score, gesture: Gesture, hand: Hand, step: GridStep): Ghost {
  switch (gesture.kind) {
    case "place":
      return { kind: "note", ...drawn(score, gesture.pressed.time, hand.time, step), note: gesture.pressed.note };
    case "stretch":
      return { kind: "stretch", ...drawn(score, gesture.pressed.time, hand.time, step), note: gesture.pressed.note };
    case "move": {
      const from = movedStart(score, gesture.held, gesture.pressed, hand, step);
      return { kind: "note", from, to: from + gesture.held.to - gesture.held.from, note: movedNote(gesture, hand) };
    }
    case "start":
      return { kind: "note", from: movedEdge(score, gesture, hand, step), to: gesture.held.to, note: gesture.held.note };
    case "end":
      return { kind: "note", from: gesture.held.from, to: movedEdge(score, gesture, hand, step), note: gesture.held.note };
    default:
      return assertNever(gesture);
  }
}

/** What the gesture asks for when the hand lets go; null when that is nothing. */
export function askedBy(score: Score, line: LineId, gesture: Gesture, hand: Hand, step: GridStep): Asked | null {
  const ghost = ghostOf(score, gesture, hand, step);
  switch (gesture.kind) {
    case "place":
      return placeNote(score, line, ghost.from, ghost.to, ghost.note, step);
    case "stretch":
      return { edits: [], label: "", selection: stretchChosen(score, line, ghost.from, ghost.to) };
    case "move":
      return moveNote(score, line, gesture.held, ghost.from, ghost.note);
    case "start":
      return moveStart(score, line, gesture.held, ghost.from);
    case "end":
      return moveEnd(score, line, gesture.held, ghost.to);
    default:
      return assertNever(gesture);
  }
}

/** The steps from where the hand was pressed to where it is, both included. */
function drawn(score: Score, pressed: number, now: number, step: GridStep): { readonly from: number; readonly to: number } {
  const last = scoreTicks(score.frames) - 1;
  const [early, late] = pressed <= now ? [pressed, now] : [now, pressed];
  return { from: stepStart(score.frames, Math.min(last, early), step), to: stepEnd(score.frames, Math.min(last, late), step) };
}

/** The pitch stays until the hand is over another row than it was pressed on. */
function movedNote({ held, pressed }: Gesture & { kind: "move" }, hand: Hand): ChanterNote {
  return hand.note === pressed.note ? held.note : hand.note;
}

/** A note moves by whole steps from where it is, so that one off the steps keeps its place between them. */
function movedStart(score: Score, held: HeldNote, pressed: Hand, hand: Hand, step: GridStep): number {
  const wanted = held.from + hand.time - pressed.time;
  const latest = scoreTicks(score.frames) - (held.to - held.from);
  if (Math.abs(hand.time - pressed.time) < (stepEnd(score.frames, held.from, step) - stepStart(score.frames, held.from, step)) / 2)
    return held.from;
  return Math.max(0, Math.min(latest, nearestStep(score.frames, wanted, step)));
}

function movedEdge(score: Score, gesture: Gesture & { kind: "start" | "end" }, hand: Hand, step: GridStep): number {
  const { held } = gesture;
  const edge = nearestStep(score.frames, hand.time, step);
  if (gesture.kind === "end") return edge > held.from ? edge : stepEnd(score.frames, held.from, step);
  if (edge < held.to) return Math.max(0, edge);
  return Math.max(held.from, stepStart(score.frames, held.to - 1, step));
}
