import type { PipeSetup } from "../pipes/pipe-setup.ts";
import type { PipeBar } from "./bar.ts";
import { type ChanterState, type CheckedPipeBar, checkPipeBar, NOT_STARTED, tieAtEnd } from "./check-pipe-bar.ts";
import type { Finding } from "./finding.ts";
import type { Frame } from "./frame.ts";
import { findingAt } from "./local-finding.ts";
import { frameTicks } from "./meter.ts";
import type { PipeLine, Score } from "./score.ts";

/** All that decides what is found in a bar, and what was found. */
interface Kept extends CheckedPipeBar {
  readonly setup: PipeSetup;
  readonly length: number;
  readonly unit: number;
  readonly before: ChanterState;
  readonly goesOn: boolean;
}

const kept = new WeakMap<PipeBar, readonly Kept[]>();

/** One bar may stand in several places of a sketch (a copied verse); more than this are looked at again. */
const PLACES = 4;

/** Everything found in a line of pipes, first to last. Bars that did not change, where nothing that bears on them did, are not looked at again. */
export function checkPipeLine(score: Score, line: PipeLine): readonly Finding[] {
  const found: Finding[] = [];
  const { frames } = score;
  const lastPlayed = line.bars.findLastIndex((bar) => bar.events.some((event) => event.kind === "note"));
  // How the chanter stood after the bar `of`; counting its bars anew at each bar line would cost more than all the rest.
  let state: StateAfter = { state: NOT_STARTED, of: 0 };
  let beforeEnding = state;
  line.bars.forEach((bar, index) => {
    const frame = frames[index];
    if (frame === undefined) return;
    const ending = frames[index - 1]?.ending ?? null;
    if (frame.ending === 1 && ending !== 1) beforeEnding = state;
    // A second ending is played after the bars before the first, not after the first.
    if (frame.ending === 2 && ending === 1) state = beforeEnding;
    const checked = checkedBar(bar, frame, line.setup, state.state, index - state.of, index < lastPlayed);
    for (const finding of checked.findings) found.push(findingAt(finding, line.id, index));
    state = { state: checked.after, of: index };
  });
  const end = tieAtEnd(state.state);
  if (end !== null) found.push(findingAt(end, line.id, state.of));
  return found;
}

interface StateAfter {
  readonly state: ChanterState;
  /** Index of the bar. */
  readonly of: number;
}

function barsOn(state: ChanterState, bars: number): ChanterState {
  return state.last === null ? state : { ...state, last: { ...state.last, barsBack: state.last.barsBack + bars } };
}

/** `bars` says how many bars ago the chanter stood like `before`. */
function checkedBar(bar: PipeBar, frame: Frame, setup: PipeSetup, before: ChanterState, bars: number, goesOn: boolean): CheckedPipeBar {
  const places = kept.get(bar) ?? [];
  const length = frameTicks(frame);
  const unit = frame.meter.unit;
  const same = places.find(
    (one) =>
      one.setup === setup && one.length === length && one.unit === unit && one.goesOn === goesOn && sameState(one.before, before, bars),
  );
  if (same !== undefined) return same;
  const now = barsOn(before, bars);
  const made: Kept = { ...checkPipeBar(bar, frame, setup, now, goesOn), setup, length, unit, before: now, goesOn };
  kept.set(bar, [made, ...places].slice(0, PLACES));
  return made;
}

/** Whether a state is another one so many bars later. */
function sameState(one: ChanterState, other: ChanterState, bars: number): boolean {
  if (one.isCut !== other.isCut || one.rested !== other.rested) return false;
  if (one.last === null || other.last === null) return one.last === other.last;
  return (
    one.last.note === other.last.note &&
    one.last.tied === other.last.tied &&
    one.last.barsBack === other.last.barsBack + bars &&
    one.last.at === other.last.at
  );
}
