import type { Clef } from "../ensemble/player.ts";
import { stepOf } from "../pitch/transpose.ts";
import type { Sign } from "./musicxml-signs.ts";

/** Staff steps above C0 of the middle line: B4, C4, D3. */
const MIDDLE_LINES: Readonly<Record<Clef, number>> = { treble: 34, alto: 28, bass: 22 };

/**
 * Which way the stems of notes go that share one: away from whichever note stands furthest from the middle line, down where they are even.
 * @param octaves by which the clef itself shifts what is read.
 */
export function stemDirection(signs: readonly Sign[], clef: Clef, octaves: number): "up" | "down" {
  const middle = MIDDLE_LINES[clef] + 7 * octaves;
  const places = signs.flatMap(({ heads }) => heads.map(({ spelling }) => stepOf(spelling) - middle));
  return Math.max(...places) + Math.min(...places) >= 0 ? "down" : "up";
}
