import type { Syllable } from "../score/bar.ts";
import type { LineEvent } from "../score/like-events.ts";
import type { Score } from "../score/score.ts";
import { changedBars } from "./changed-bars.ts";
import type { AnyBar } from "./with-bars.ts";

/**
 * The syllables that the first score has and the second has not, in score order. Words that moved to another note of the same line are not lost.
 * Doubled bars have no words of their own.
 */
export function lostWords(before: Score, after: Score): readonly Syllable[] {
  return changedBars(before, after).flatMap(({ gone, added }) => {
    const left = wordsOf(added).map(asText);
    return wordsOf(gone).filter((word) => {
      const place = left.indexOf(asText(word));
      if (place >= 0) left.splice(place, 1);
      return place < 0;
    });
  });
}

function wordsOf(bars: readonly AnyBar[]): readonly Syllable[] {
  return bars.flatMap((bar) => {
    if (bar.kind === "doubling") return [];
    const events: readonly LineEvent[] = bar.events;
    return events.flatMap((event) => (event.kind === "note" ? event.syllables : [])).filter((word) => word.text !== "");
  });
}

function asText(word: Syllable): string {
  return word.hyphen ? `${word.text}-` : word.text;
}
