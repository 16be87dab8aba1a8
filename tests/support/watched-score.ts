import type { Score } from "../../src/score/score.ts";

/** A score that notes which of its bars and frames are looked into. Comparing them by identity is no look. */
export interface WatchedScore {
  readonly score: Score;
  /** The bars looked into since the last call, in order; a bar that an edit made is not among them. */
  readonly looked: () => readonly number[];
}

/** The same score with every bar and frame watched. */
export function watchedScore(score: Score): WatchedScore {
  const seen = new Set<number>();
  const watched = <Whole extends object>(whole: Whole, index: number): Whole =>
    new Proxy(whole, {
      get: (target, name, receiver) => {
        seen.add(index);
        return Reflect.get(target, name, receiver);
      },
    });
  const lines = score.lines.map((line) => ({ ...line, bars: (line.bars as readonly object[]).map(watched) }));
  return {
    score: { ...score, frames: score.frames.map(watched), lines: lines as unknown as Score["lines"] },
    looked: () => {
      const bars = [...seen].sort((one, other) => one - other);
      seen.clear();
      return bars;
    },
  };
}
