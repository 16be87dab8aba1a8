import type { LineId } from "./line-id.ts";
import type { ConcertLine, Line, PipeLine, Score } from "./score.ts";

/** The line of that name, or null. */
export function lineOf(score: Score, id: LineId): Line | null {
  return score.lines.find((line) => line.id === id) ?? null;
}

/** The pipe line of that name; null when there is none or another player has it. */
export function pipeLineOf(score: Score, id: LineId): PipeLine | null {
  const line = lineOf(score, id);
  return line?.kind === "pipes" ? line : null;
}

/** All sets of pipes, in score order. */
export function pipeLines(score: Score): readonly PipeLine[] {
  return score.lines.filter((line) => line.kind === "pipes");
}

/** All other players, in score order. */
export function concertLines(score: Score): readonly ConcertLine[] {
  return score.lines.filter((line) => line.kind === "concert");
}
