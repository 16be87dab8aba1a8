import { crossingOf } from "../../src/pipes/crossing.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { BarTrace } from "./bar-trace.ts";
import { type BarScale, placeInBar } from "./ink-paths.ts";

/** How large a speck is: small enough to be overlooked by who does not look for it. */
const SPECK = 1.7;

/**
 * Where fingers move and other notes of the nine can sound in between, a speck at the height of each: what to listen for, and no reproach. Path
 * data, as of the ink.
 */
export function passingSpecks(trace: BarTrace, scale: BarScale, setup: PipeSetup): string {
  return trace.changes
    .flatMap(({ at, from, to, gracenotes }) => {
      const x = placeInBar(scale, at);
      return crossingOf(setup, from, to, gracenotes).notes.map((note) => speck(x, scale.height(note)));
    })
    .join("");
}

function speck(x: number, y: number): string {
  return `M${x - SPECK} ${y}a${SPECK} ${SPECK} 0 1 0 ${2 * SPECK} 0a${SPECK} ${SPECK} 0 1 0 ${-2 * SPECK} 0z`;
}
