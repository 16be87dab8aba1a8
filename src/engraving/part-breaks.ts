import type { Frame } from "../score/frame.ts";
import { isShort, meterOffset } from "../score/meter.ts";

/*
 * Where a tune is parted, as its frames say:
 *
 *    ♪|: 1 2 3 4 5 6 7 8 :|  ♪| 9 …      a pickup (♪) belongs to the bar after it, so the line, and the part, begin with it
 */

/** Whether a bar is a pickup, which leans on the bar after it. */
export function isPickup(frames: readonly Frame[], bar: number): boolean {
  const frame = frames[bar];
  if (frame === undefined || !isShort(frame)) return false;
  return bar === 0 || (meterOffset(frame) > 0 && !frame.repeatEnd && bar + 1 < frames.length);
}

/** Whether a section or a tune begins with a bar, its pickup counted to it. */
export function beginsPart(frames: readonly Frame[], bar: number): boolean {
  return withPickup(frames, bar, ({ section, tune }) => section !== null || tune !== null);
}

/**
 * Whether a bar has to begin a line of staff: sections and tunes do, and whatever is repeated, so that the repeat signs stand at both ends of the
 * paper, in the band's parts where the piper has them (common practice). A second ending stays with its first.
 */
export function beginsLine(frames: readonly Frame[], bar: number): boolean {
  return withPickup(frames, bar, ({ section, tune, repeatStart, ending }, at) => {
    if (at === 0 || section !== null || tune !== null) return true;
    const before = frames[at - 1] as Frame;
    return repeatStart || (before.repeatEnd && !(before.ending === 1 && ending === 2)) || leavesSecondEnding(before, ending);
  });
}

function leavesSecondEnding(before: Frame, ending: Frame["ending"]): boolean {
  return before.ending === 2 && ending !== 2;
}

/** What begins with a bar begins with the pickup before it. */
function withPickup(frames: readonly Frame[], bar: number, begins: (frame: Frame, bar: number) => boolean): boolean {
  const frame = frames[bar];
  if (frame === undefined) return false;
  const after = frames[bar + 1];
  if (isPickup(frames, bar)) return begins(frame, bar) || (after !== undefined && begins(after, bar + 1));
  return begins(frame, bar) && !isPickup(frames, bar - 1);
}
