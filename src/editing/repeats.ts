import type { BarRange } from "../score/edit.ts";
import type { Frame } from "../score/frame.ts";
import type { Score } from "../score/score.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { isRange } from "./bars-in-and-out.ts";
import { withFrames } from "./frame-edits.ts";
import { NO_SUCH_BAR } from "./refusals.ts";

/** Puts repeat signs around bars, or takes away the signs (and endings) of every repeat that the bars touch. */
export function changeRepeat(score: Score, range: BarRange, on: boolean): Outcome<Score> {
  if (!isRange(score, range)) return NO_SUCH_BAR;
  const touched = repeatsOf(score.frames).filter((one) => one.first <= range.last && one.last >= range.first);
  if (!on) {
    const whole = touched.reduce((all, one) => ({ first: Math.min(all.first, one.first), last: Math.max(all.last, one.last) }), range);
    const reach = { first: whole.first, last: endOfEndings(score.frames, whole.last) };
    return done(
      withFrames(score, reach, (frame) =>
        frame.repeatStart || frame.repeatEnd || frame.ending !== null
          ? { ...frame, repeatStart: false, repeatEnd: false, ending: null }
          : frame,
      ),
    );
  }
  if (touched.some((one) => one.first !== range.first || one.last !== range.last)) {
    return refused("Bars there are repeated already. Take that repeat away first.");
  }
  return done(
    withFrames(score, range, (frame, bar) => {
      const repeatStart = bar === range.first || frame.repeatStart;
      const repeatEnd = bar === range.last || frame.repeatEnd;
      return repeatStart === frame.repeatStart && repeatEnd === frame.repeatEnd ? frame : { ...frame, repeatStart, repeatEnd };
    }),
  );
}

/**
 * Makes bars the first or second ending of a repeat, or no ending (null). A first ending closes the repeat; a second stands right after a first.
 * Taking a first ending away takes the second with it.
 */
export function changeEnding(score: Score, range: BarRange, ending: 1 | 2 | null): Outcome<Score> {
  if (!isRange(score, range)) return NO_SUCH_BAR;
  if (ending === null) {
    const takesFirst = score.frames.slice(range.first, range.last + 1).some((frame) => frame.ending === 1);
    const last = takesFirst ? endOfEndings(score.frames, range.last) : range.last;
    return done(withFrames(score, { first: range.first, last }, (frame) => (frame.ending === null ? frame : { ...frame, ending: null })));
  }
  if (ending === 2 && score.frames[range.first - 1]?.ending !== 1) return refused("A second ending stands right after a first one.");
  if (ending === 1 && (range.first === 0 || score.frames.slice(range.first, range.last + 1).some((frame) => frame.repeatStart))) {
    return refused("A first ending needs bars before it that are played both times.");
  }
  return done(
    withFrames(score, range, (frame, bar) => ({
      ...frame,
      ending,
      repeatEnd: ending === 1 ? bar === range.last : frame.repeatEnd && bar === range.last,
    })),
  );
}

/** The repeats as they close, first to last: bars that are played twice, first endings among them. */
export function repeatsOf(frames: readonly Frame[]): readonly BarRange[] {
  const repeats: BarRange[] = [];
  let start = 0;
  frames.forEach((frame, bar) => {
    if (frame.repeatStart) start = bar;
    if (frame.repeatEnd) {
      repeats.push({ first: start, last: bar });
      start = bar + 1;
    }
  });
  return repeats;
}

/** The last of the bars right after a bar that belong to an ending; the bar itself when none does. */
function endOfEndings(frames: readonly Frame[], bar: number): number {
  let last = bar;
  while (frames[last + 1]?.ending === 1 || frames[last + 1]?.ending === 2) last += 1;
  return last;
}
