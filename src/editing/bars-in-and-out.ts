import type { BarClip, BarRange } from "../score/edit.ts";
import type { Frame } from "../score/frame.ts";
import { MOST_BARS } from "../score/limits.ts";
import { frameTicks, isShort } from "../score/meter.ts";
import { lengthOf } from "../score/placed-events.ts";
import type { Line, Score } from "../score/score.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { restOf } from "./events-made.ts";
import { NO_SUCH_BAR } from "./refusals.ts";
import { mendedAtSeam } from "./seams.ts";
import { type AnyBar, withLineBars } from "./with-bars.ts";

const TOO_MANY = refused(`A sketch has at most ${MOST_BARS} bars.`);
const BEFORE_PICKUP = refused("The pickup comes first. Insert after it.");

/** Puts empty bars before the bar at an index (or after the last), in its neighbour's meter, key and tempo; whoever doubles there goes on doubling. */
export function insertBars(score: Score, before: number, count: number): Outcome<Score> {
  if (!isPlaceForBars(score, before) || !Number.isInteger(count) || count < 1) return NO_SUCH_BAR;
  if (score.frames.length + count > MOST_BARS) return TOO_MANY;
  if (before === 0 && isShort(score.frames[0] as Frame)) return BEFORE_PICKUP;
  const neighbour = score.frames[Math.max(0, before - 1)] as Frame;
  const inside = before > 0 && score.frames[before]?.ending === neighbour.ending ? neighbour.ending : null;
  const frame: Frame = {
    ...neighbour,
    short: null,
    section: null,
    tune: null,
    chords: [],
    repeatStart: false,
    repeatEnd: false,
    ending: inside,
  };
  const frames = Array.from({ length: count }, () => frame);
  return done(withBarsIn(score, before, frames, (line) => frames.map((one) => emptyBar(score, line, before, one))));
}

/** Puts copied bars before the bar at an index. Lines the clip does not know rest (or go on doubling); lines the score does not know are left out. */
export function insertClip(score: Score, before: number, clip: BarClip): Outcome<Score> {
  if (!isPlaceForBars(score, before)) return NO_SUCH_BAR;
  if (clip.frames.length === 0) return refused("Nothing was copied.");
  if (score.frames.length + clip.frames.length > MOST_BARS) return TOO_MANY;
  if (before === 0 && isShort(score.frames[0] as Frame)) return BEFORE_PICKUP;
  return done(
    withBarsIn(score, before, clip.frames, (line) =>
      clip.frames.map((frame, index) => {
        const bar = Object.hasOwn(clip.bars, line.id) ? clip.bars[line.id]?.[index] : undefined;
        return bar !== undefined && fits(score, line, bar, frame) ? bar : emptyBar(score, line, before, frame);
      }),
    ),
  );
}

/** Takes bars out. Repeat signs, the section's name and the tune's heading that stood on them move to the bars beside them; one bar stays. */
export function removeBars(score: Score, { first, last }: BarRange): Outcome<Score> {
  if (!isRange(score, { first, last })) return NO_SUCH_BAR;
  if (last - first + 1 >= score.frames.length) return refused("One bar has to stay.");
  const frames = score.frames.slice();
  const gone = frames.splice(first, last - first + 1);
  moveSigns(frames, gone, first);
  const lines = score.lines.map((line) => withLineBars(line, line.bars.toSpliced(first, last - first + 1)));
  return done(mendedAtSeam({ ...score, frames, lines }, first));
}

/** Signs of removed bars that still have their other half go to the neighbours. */
function moveSigns(frames: Frame[], gone: readonly Frame[], at: number): void {
  const before = frames[at - 1];
  const after = frames[at];
  const start = gone.findLastIndex((frame) => frame.repeatStart);
  const opens = start >= 0 && !gone.slice(start).some((frame) => frame.repeatEnd);
  const end = gone.findIndex((frame) => frame.repeatEnd);
  const closes = end >= 0 && !gone.slice(0, end + 1).some((frame) => frame.repeatStart);
  const section = after?.section ?? gone.findLast((frame) => frame.section !== null)?.section ?? null;
  const tune = after?.tune ?? gone.findLast((frame) => frame.tune !== null)?.tune ?? null;
  if (after !== undefined && (opens || section !== after.section || tune !== after.tune)) {
    frames[at] = { ...after, repeatStart: after.repeatStart || opens, section, tune };
  }
  if (before !== undefined && closes && !before.repeatEnd) frames[at - 1] = { ...before, repeatEnd: true };
}

function withBarsIn(score: Score, before: number, frames: readonly Frame[], barsFor: (line: Line) => readonly AnyBar[]): Score {
  const lines = score.lines.map((line) => withLineBars(line, (line.bars as readonly AnyBar[]).toSpliced(before, 0, ...barsFor(line))));
  const longer = { ...score, frames: score.frames.toSpliced(before, 0, ...frames), lines };
  return mendedAtSeam(mendedAtSeam(longer, before), before + frames.length);
}

/** A bar of rest, or of the doubling its neighbour does. */
function emptyBar(score: Score, line: Line, before: number, frame: Frame): AnyBar {
  const rest = restOf(frameTicks(frame));
  if (line.kind === "pipes") return { kind: "pipes", events: [rest] };
  const neighbour = line.bars[Math.max(0, before - 1)];
  if (neighbour?.kind === "doubling" && score.lines.some((one) => one.id === neighbour.of)) return neighbour;
  return { kind: "own", events: [rest] };
}

function fits(score: Score, line: Line, bar: AnyBar, frame: Frame): boolean {
  if (bar.kind === "doubling") return line.kind === "concert" && score.lines.some((one) => one.kind === "pipes" && one.id === bar.of);
  return (bar.kind === "pipes") === (line.kind === "pipes") && lengthOf(bar) === frameTicks(frame);
}

/** Whether bars may be put in front of the bar at an index, or behind the last one. */
function isPlaceForBars(score: Score, before: number): boolean {
  return Number.isInteger(before) && before >= 0 && before <= score.frames.length;
}

/** Whether a range names bars of the score, first to last. */
export function isRange(score: Score, { first, last }: BarRange): boolean {
  return Number.isInteger(first) && Number.isInteger(last) && first >= 0 && first <= last && last < score.frames.length;
}
