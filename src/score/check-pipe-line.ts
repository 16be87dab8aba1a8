import type { PipeSetup } from "../pipes/pipe-setup.ts";
import type { PipeBar } from "./bar.ts";
import { barsOn, type ChanterState, NOT_STARTED, sameState } from "./chanter-state.ts";
import {
  atLineEnd,
  type CheckedPipeBar,
  checkPipeBar,
  findingsAfterRepeat,
  openGroup,
  type PipeBarSurroundings,
  restAtJump,
} from "./check-pipe-bar.ts";
import { chordHeldInto, chordSpans } from "./chords-in-force.ts";
import type { Finding } from "./finding.ts";
import type { Frame } from "./frame.ts";
import { findingAt, type LocalFinding } from "./local-finding.ts";
import { playedOrder } from "./played-order.ts";
import type { PipeLine, Score } from "./score.ts";

/** All that decides what is found in a bar, and what was found. */
interface Kept extends CheckedPipeBar {
  readonly setup: PipeSetup;
  readonly frame: Frame;
  readonly chord: string | null;
  readonly before: ChanterState;
}

const kept = new WeakMap<PipeBar, readonly Kept[]>();

/** One bar may stand in several places of a sketch (a copied verse); more than this are looked at again. */
const PLACES = 4;

/** How the chanter stood after a bar; counting its bars anew at each bar line would cost more than all the rest. */
interface StateAfter {
  readonly state: ChanterState;
  /** Index of the bar. */
  readonly of: number;
}

/** Everything found in a line of pipes, bar by bar as written. Bars that did not change, where nothing that bears on them did, are not looked at again. */
export function checkPipeLine(score: Score, line: PipeLine): readonly Finding[] {
  const found: Finding[] = [];
  const { frames } = score;
  const befores: StateAfter[] = [];
  const afters: StateAfter[] = [];
  let state: StateAfter = { state: NOT_STARTED, of: 0 };
  let beforeEnding = state;
  const say = (findings: readonly LocalFinding[], bar: number): void => {
    for (const finding of findings) found.push(findingAt(finding, line.id, bar));
  };
  line.bars.forEach((bar, index) => {
    const frame = frames[index];
    if (frame === undefined) return;
    const ending = frames[index - 1]?.ending ?? null;
    if (frame.ending === 1 && ending !== 1) beforeEnding = state;
    // A second ending is played after the bars before the first, not after the first.
    if (frame.ending === 2 && ending === 1) {
      say(overJump(score, line, state), state.of);
      state = beforeEnding;
    }
    befores.push(state);
    const checked = checkedBar(score, line, bar, index, state);
    say(checked.findings, index);
    state = { state: checked.after, of: index };
    afters.push(state);
  });
  say(atLineEnd(state.state, line.setup), state.of);
  if (frames[state.of]?.repeatEnd) say(restAtJump(state.state, surroundings(score, line, state.of)), state.of);
  for (const { from, to } of jumpsBack(frames)) {
    const [after, before, bar] = [afters[from], befores[to], line.bars[to]];
    if (after === undefined || before === undefined || bar === undefined) continue;
    say(afterRepeat(bar, surroundings(score, line, to), after.state, before.state), to);
  }
  return found;
}

function surroundings({ frames }: Score, { setup }: PipeLine, index: number): PipeBarSurroundings {
  return { frame: frames[index] as Frame, chords: chordSpans(frames, index), setup };
}

/** What is open where playing goes back and the next bar as written does not follow. A tie may lead to where it goes back to. */
function overJump(score: Score, line: PipeLine, { state, of }: StateAfter): readonly LocalFinding[] {
  return [...openGroup(state, line.setup), ...restAtJump(state, surroundings(score, line, of))];
}

function checkedBar({ frames }: Score, line: PipeLine, bar: PipeBar, index: number, { state, of }: StateAfter): CheckedPipeBar {
  const places = kept.get(bar) ?? [];
  const { setup } = line;
  const frame = frames[index] as Frame;
  const chord = chordHeldInto(frames, index);
  const same = places.find(
    (one) => one.setup === setup && one.frame === frame && one.chord === chord && sameState(one.before, state, index - of),
  );
  if (same !== undefined) return same;
  const before = barsOn(state, index - of);
  const checked = checkPipeBar(bar, { frame, chords: chordSpans(frames, index), setup }, before);
  kept.set(bar, [{ ...checked, setup, frame, chord, before }, ...places].slice(0, PLACES));
  return checked;
}

/** Where playing goes back to an earlier bar, or to the start of the same. */
interface JumpBack {
  readonly from: number;
  readonly to: number;
}

const jumps = new WeakMap<readonly Frame[], readonly JumpBack[]>();

function jumpsBack(frames: readonly Frame[]): readonly JumpBack[] {
  const known = jumps.get(frames);
  if (known !== undefined) return known;
  const order = playedOrder(frames);
  const found = order.flatMap((to, place): readonly JumpBack[] => {
    const from = order[place - 1];
    return from !== undefined && to <= from ? [{ from, to }] : [];
  });
  jumps.set(frames, found);
  return found;
}

interface KeptRepeat {
  readonly setup: PipeSetup;
  readonly frame: Frame;
  readonly after: ChanterState;
  readonly before: ChanterState;
  readonly findings: readonly LocalFinding[];
}

const repeats = new WeakMap<PipeBar, readonly KeptRepeat[]>();

/** The same findings for the same bar, so that what is shown stays. */
function afterRepeat(bar: PipeBar, around: PipeBarSurroundings, after: ChanterState, before: ChanterState): readonly LocalFinding[] {
  const { setup, frame } = around;
  const places = repeats.get(bar) ?? [];
  const same = places.find(
    (one) => one.setup === setup && one.frame === frame && sameState(one.after, after, 0) && sameState(one.before, before, 0),
  );
  if (same !== undefined) return same.findings;
  const findings = findingsAfterRepeat(bar, around, after, before);
  repeats.set(bar, [{ setup, frame, after, before, findings }, ...places].slice(0, PLACES));
  return findings;
}
