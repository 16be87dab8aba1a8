import { eventOfPart, nextEvent } from "../../src/engraving/note-steps.ts";
import type { Moment } from "../../src/score/address.ts";
import { momentAt, scoreTicks } from "../../src/score/bar-starts.ts";
import type { Line, Score } from "../../src/score/score.ts";
import type { Ticks } from "../../src/units/ticks.ts";

/** Where a key leads from a note of a part: undefined for keys that are not ours, null where there is nothing further that way. */
export function momentForKey(key: string, score: Score, line: Line, here: Moment): Moment | null | undefined {
  switch (key) {
    case "ArrowRight":
      return nextEvent(score, line, here, 1);
    case "ArrowLeft":
      return nextEvent(score, line, here, -1);
    case "Home":
      return { bar: 0, at: 0 as Ticks };
    case "End":
      return eventOfPart(score, line, momentAt(score.frames, scoreTicks(score.frames) - 1));
    case "Enter":
    case " ":
      return here;
    default:
      return undefined;
  }
}
