import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { PipeBar, PipeEvent } from "../../src/score/bar.ts";
import { newScore } from "../../src/score/new-score.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";

/** Notes with the gracenotes a piper puts before them: one, a half doubling's two, a doubling's three. */
const GRACED: readonly { readonly note: ChanterNote; readonly groups: readonly (readonly PlainNote[])[] }[] = [
  { note: "low-a", groups: [["high-g"], ["e"], ["high-g", "low-a", "d"]] },
  { note: "b", groups: [["high-g"], ["d"], ["high-g", "b", "d"]] },
  { note: "c", groups: [["high-g"], ["d"], ["high-g", "c", "d"]] },
  { note: "d", groups: [["high-g"], ["e"], ["low-g", "d", "c"]] },
  { note: "e", groups: [["high-g"], ["e", "f"], ["high-g", "e", "f"]] },
  { note: "f", groups: [["high-g"], ["f", "high-g"], ["high-g", "f", "high-g"]] },
];
const PLAIN: readonly ChanterNote[] = ["low-g", "low-a", "b", "c", "d", "e", "f", "high-g", "high-a", "high-g-sharp", "c-natural"];

/** A new section begins every so many bars. */
const SECTION_BARS = 8;

const SETUP = { ...defaultSetup("B"), crossFingerings: defaultCrossFingerings(["c-natural", "high-g-sharp"]) };

/**
 * A score to measure with: eight quavers a bar, gracenotes on every other note, an accidental now and then, on a B chanter with a fiddle
 * that doubles it. No bar is like another, so that nothing can be quick by remembering. The same for the same arguments, always.
 */
export function benchScore(bars: number, seed = 1): Score {
  const blank = newScore({ title: "Paper Lantern Weather", bars, setup: SETUP });
  const next = randomNumbers(seed);
  const seen = new Set<string>();
  const pipeBars: PipeBar[] = [];
  while (pipeBars.length < bars) {
    const bar = randomBar(next, pipeBars.length === 0);
    const likeness = JSON.stringify(bar);
    if (seen.has(likeness)) continue;
    seen.add(likeness);
    pipeBars.push(bar);
  }
  const [pipes] = blank.lines;
  if (pipes?.kind !== "pipes") throw new RangeError("a new score begins with pipes");
  return {
    ...blank,
    frames: blank.frames.map((frame, index) =>
      index % SECTION_BARS === 0 ? { ...frame, section: { name: `Part ${index / SECTION_BARS + 1}`, letter: "" } } : frame,
    ),
    lines: [
      { ...pipes, bars: pipeBars },
      {
        kind: "concert",
        id: "fiddle",
        name: "Fiddle",
        player: "fiddle",
        bars: pipeBars.map(() => ({ kind: "doubling", of: pipes.id, octaves: 0 })),
      },
    ],
  };
}

function randomBar(next: (below: number) => number, first: boolean): PipeBar {
  const events = Array.from({ length: 8 }, (_, index): PipeEvent => {
    const graced = GRACED[next(GRACED.length)];
    const isGraced = index % 2 === 0 && graced !== undefined;
    return {
      kind: "note",
      ticks: ticks(480),
      tuplet: null,
      note: isGraced ? graced.note : (PLAIN[next(PLAIN.length)] ?? "low-a"),
      tied: false,
      gracenotes: isGraced ? (graced.groups[next(graced.groups.length)] ?? []) : [],
      syllables: [],
      strikeIn: first && index === 0,
      cutOff: false,
    };
  });
  return { kind: "pipes", events };
}

/** Source: the "minimal standard" generator of S. K. Park and K. W. Miller, Comm. ACM 31 (1988) 1192, with their multiplier 16807. */
function randomNumbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 16807) % 2147483647;
    return state % below;
  };
}
