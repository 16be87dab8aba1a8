import { done, type Outcome, refused } from "../units/outcome.ts";
import type { PlainNote } from "./chanter-note.ts";
import { HOLE_COUNT, type Hole } from "./fingerings.ts";
import { soundingHole, soundsLike } from "./sounding-hole.ts";

/**
 * What the fingers do for one gracenote, upon the fingering beneath it: come off (a lift) or go down (a strike), and back again. So a G
 * gracenote on low A is `X OXX XXXO`, nothing like high G.
 * *Source:* a gracenote is one finger lifted, or a strike, upon the fingering beneath it (published: graded lessons, such as "What is a
 * gracenote?" at dojouniversity.com).
 */
export interface GracenoteMovement {
  readonly kind: "lift" | "strike";
  /** The fingers that move, numbered as the holes: 0 thumb to 7 lower little; rising, at least one. */
  readonly fingers: readonly number[];
  /** The holes while the gracenote sounds, thumb first. */
  readonly holes: readonly Hole[];
}

/** Why a gracenote cannot be fingered upon what lies beneath it. */
export type MovementFault =
  /** It sounds as what lies beneath does: its finger is off already, or (low G) all are down. */
  | { readonly kind: "nothing-to-move" }
  /** Fingers put down as for the gracenote give another sound. */
  | { readonly kind: "sounds-otherwise"; readonly holes: readonly Hole[] }
  /** These fingers would have to lift, more than can as one. */
  | { readonly kind: "lifts-several"; readonly fingers: readonly number[] };

/** Gracenotes that are one finger lifted, whatever their note's own fingering does further down. */
const ONE_FINGER: readonly PlainNote[] = ["d", "e", "high-g", "high-a"];

/** The first hole of the lower hand. */
export const LOWER_HAND = 4;

const FIRST_FINGER = 1;

/**
 * What moves for a gracenote upon the holes beneath it, which are those of the sound that follows: the note itself, or the next gracenote
 * of the group. Above what lies beneath it is a lift, below it a strike.
 * @param own the gracenote's own fingering, as the piper has it: where it sounds, and which fingers a strike puts down.
 */
export function movementUpon(
  beneath: readonly Hole[],
  gracenote: PlainNote,
  own: readonly Hole[],
): Outcome<GracenoteMovement, MovementFault> {
  const hole = soundingHole(own);
  const under = soundingHole(beneath);
  // The thumb is off on high G sharp and the first finger down: lifted, it lets the fork go. From memory; a gracenote no lower down does.
  const overFork = hole === FIRST_FINGER && under === 0 && beneath[FIRST_FINGER] === "closed";
  if (hole === under) return refused({ kind: "nothing-to-move" });
  return hole < under || overFork ? lift(beneath, gracenote, own) : strike(beneath, gracenote, own);
}

function lift(beneath: readonly Hole[], gracenote: PlainNote, own: readonly Hole[]): Outcome<GracenoteMovement, MovementFault> {
  const fingers = ONE_FINGER.includes(gracenote)
    ? [soundingHole(own)]
    : fingersWhere((finger) => own[finger] !== "closed" && beneath[finger] === "closed");
  // From low G the lower hand can open as one, as the B does in a grip from D; elsewhere fingers that lift together are a change of note.
  const asOne = soundingHole(beneath) === HOLE_COUNT && fingers.every((finger) => finger >= LOWER_HAND);
  if (fingers.length > 1 && !asOne) return refused({ kind: "lifts-several", fingers });
  return done({ kind: "lift", fingers, holes: moved(beneath, fingers, "open") });
}

function strike(beneath: readonly Hole[], gracenote: PlainNote, own: readonly Hole[]): Outcome<GracenoteMovement, MovementFault> {
  // A gracenote of one finger comes back by whatever is open above it: in {gdgd} only the first finger moves between the two Ds.
  const upTo = ONE_FINGER.includes(gracenote) ? soundingHole(own) : HOLE_COUNT;
  const fingers = fingersWhere((finger) => finger < upTo && own[finger] === "closed" && beneath[finger] !== "closed");
  const holes = moved(beneath, fingers, "closed");
  return soundsLike(holes, own) ? done({ kind: "strike", fingers, holes }) : refused({ kind: "sounds-otherwise", holes });
}

function moved(holes: readonly Hole[], fingers: readonly number[], to: Hole): readonly Hole[] {
  return holes.map((hole, finger) => (fingers.includes(finger) ? to : hole));
}

function fingersWhere(moves: (finger: number) => boolean): readonly number[] {
  return Array.from({ length: HOLE_COUNT }, (_, finger) => finger).filter(moves);
}
