import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { ConcertBar, ConcertEvent, PipeEvent } from "../../src/score/bar.ts";
import type { Frame } from "../../src/score/frame.ts";
import { NO_CREDITS } from "../../src/score/new-score.ts";
import type { ConcertLine, PipeLine, Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";
import { frame } from "./written-music.ts";

/** A frame at 60 quarters to the minute, so that a quarter lasts a second and a tick 1/960 s. */
export function secondFrame(more: Partial<Frame> = {}): Frame {
  return frame({ tempo: { beat: ticks(960), perMinute: bpm(60) }, ...more });
}

/** A score of one set of pipes, a bar for each list of events, at a quarter a second. */
export function pipeScore(
  bars: readonly (readonly PipeEvent[])[],
  {
    frames = bars.map(() => secondFrame()),
    setup = defaultSetup("Bb"),
  }: { readonly frames?: readonly Frame[]; readonly setup?: PipeSetup } = {},
): Score {
  const pipes: PipeLine = { kind: "pipes", id: "pipes", name: "Pipes", setup, bars: bars.map((events) => ({ kind: "pipes", events })) };
  return { title: "", credits: NO_CREDITS, revision: 0, bandA: hertz(440), frames, lines: [pipes] };
}

/** The same with a fiddle beside the pipes, who has these bars to himself. */
export function withFiddle(score: Score, bars: readonly (readonly ConcertEvent[])[]): Score {
  return withPlayer(
    score,
    bars.map((events) => ({ kind: "own", events })),
  );
}

/** The same with another player. */
export function withPlayer(score: Score, bars: readonly ConcertBar[], player = "fiddle"): Score {
  const line: ConcertLine = { kind: "concert", id: player, name: player, player, bars };
  return { ...score, lines: [...score.lines, line] };
}
