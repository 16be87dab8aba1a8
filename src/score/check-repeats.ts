import type { BarRange } from "./edit.ts";
import type { Finding } from "./finding.ts";
import type { Frame } from "./frame.ts";

/** A fault in the repeat signs, at the bar it stands in. */
export interface RepeatFault {
  readonly bar: number;
  readonly message: string;
  readonly cures: Finding["cures"];
}

const known = new WeakMap<readonly Frame[], readonly RepeatFault[]>();

/** Repeats and endings that do not close, first to last. An end without a start is none: it goes back to the beginning. */
export function repeatFaults(frames: readonly Frame[]): readonly RepeatFault[] {
  const kept = known.get(frames);
  if (kept !== undefined) return kept;
  const faults = [...openRepeats(frames), ...endingFaults(frames)].sort((one, other) => one.bar - other.bar);
  known.set(frames, faults);
  return faults;
}

function openRepeats(frames: readonly Frame[]): readonly RepeatFault[] {
  const faults: RepeatFault[] = [];
  let open: number | null = null;
  frames.forEach((frame, bar) => {
    if (frame.repeatStart) {
      if (open !== null) faults.push(openRepeat(open));
      open = bar;
    }
    if (frame.repeatEnd) open = null;
  });
  if (open !== null) faults.push(openRepeat(open));
  return faults;
}

function openRepeat(bar: number): RepeatFault {
  return {
    bar,
    message: "The repeat that begins here does not end. Mark its last bar, or take it away.",
    cures: [{ label: "Take it away", edits: [{ kind: "repeat", range: { first: bar, last: bar }, on: false }] }],
  };
}

function endingFaults(frames: readonly Frame[]): readonly RepeatFault[] {
  return endingsOf(frames).flatMap(({ ending, range }): readonly RepeatFault[] => {
    const { first, last } = range;
    const takeAway = { label: "Take it away", edits: [{ kind: "ending", range, ending: null }] } as const;
    if (ending === 2) {
      if (frames[first - 1]?.ending === 1) return [];
      return [
        { bar: first, message: "This second ending has no first one before it. Take it away, or mark the first.", cures: [takeAway] },
      ];
    }
    if (first > 0 && frames[last]?.repeatEnd !== true) {
      const close = { label: "Repeat from here", edits: [{ kind: "ending", range, ending: 1 }] } as const;
      return [{ bar: last, message: "The first ending does not lead back. Mark a repeat at its end.", cures: [close, takeAway] }];
    }
    if (frames[last + 1]?.ending === 2) return [];
    const next = { first: last + 1, last: last + 1 };
    const mark = { label: "Mark the next bar", edits: [{ kind: "ending", range: next, ending: 2 }] } as const;
    return [
      {
        bar: last,
        message: "The first ending has no second one after it. Mark it, or take the first away.",
        cures: last + 1 < frames.length ? [mark, takeAway] : [takeAway],
      },
    ];
  });
}

/** Bars side by side that belong to one ending. */
function endingsOf(frames: readonly Frame[]): readonly { readonly ending: 1 | 2; readonly range: BarRange }[] {
  const endings: { ending: 1 | 2; range: BarRange }[] = [];
  frames.forEach(({ ending }, bar) => {
    const before = endings.at(-1);
    if (ending === null) return;
    if (before !== undefined && before.ending === ending && before.range.last === bar - 1) before.range = { ...before.range, last: bar };
    else endings.push({ ending, range: { first: bar, last: bar } });
  });
  return endings;
}
