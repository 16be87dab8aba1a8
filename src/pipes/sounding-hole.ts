import { HOLE_COUNT, type Hole } from "./fingerings.ts";

/**
 * The hole that names what sounds: the open one nearest the reed, from 0 (thumb) to 7 (lower little); 8 when all are closed. Each of the
 * nine has another, which is why one finger lifted over whatever lies beneath still reads as a D or an E. A hole half open counts.
 * *Source:* derived from the fingerings.
 */
export function soundingHole(holes: readonly Hole[]): number {
  const first = holes.findIndex((hole) => hole !== "closed");
  return first === -1 ? HOLE_COUNT : first;
}

/**
 * The holes under which a closed one makes a note of its own: high G sharp under the thumb, F natural under the upper middle, C natural
 * under the lower middle. Elsewhere what is closed further down shades a sound without making it another note.
 * *Source:* derived from the cross-fingerings, which are themselves from memory or from another kind of chanter.
 */
const FORKED_UNDER: readonly number[] = [0, 2, 5];

/** Whether an ear takes two fingerings for one note. A gracenote is then not heard beside the other. */
export function soundsLike(one: readonly Hole[], other: readonly Hole[]): boolean {
  const hole = soundingHole(one);
  if (hole !== soundingHole(other) || one[hole] !== other[hole]) return false;
  return !FORKED_UNDER.includes(hole) || one[hole + 1] === other[hole + 1];
}
