import type { PlayerId } from "../ensemble/player.ts";
import { chordSpans } from "../score/chords-in-force.ts";
import { eventsOf } from "../score/doubling.ts";
import type { Line, Score } from "../score/score.ts";
import { isPickup } from "./part-breaks.ts";

/** Who plays from chord symbols where no notes stand. */
const CHORDAL: ReadonlySet<PlayerId> = new Set(["accordion", "bass-guitar", "double-bass", "guitar", "mandolin", "piano"]);

/** Whether a player has nothing to do in a bar that is counted: no note, and no chord that he would play from. */
export function isSilent(score: Score, line: Line, bar: number): boolean {
  if (bar >= score.frames.length || isPickup(score.frames, bar) || eventsOf(score, line, bar).some(({ kind }) => kind === "note"))
    return false;
  return line.kind === "pipes" || !CHORDAL.has(line.player) || chordSpans(score.frames, bar).length === 0;
}
