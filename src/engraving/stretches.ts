import { fifthsOf } from "../pitch/key-signature.ts";
import { eventsOf } from "../score/doubling.ts";
import type { BarRange } from "../score/edit.ts";
import type { Frame } from "../score/frame.ts";
import type { LineId } from "../score/line-id.ts";
import type { Line, Score } from "../score/score.ts";
import { cueFor } from "./cues.ts";
import { beginsLine } from "./part-breaks.ts";
import { playsWith, writtenKey } from "./part-facts.ts";
import { isSilent } from "./silence.ts";

/** What stands between two bar lines of a page: a bar, or several silent ones drawn as one rest. */
export interface Stretch extends BarRange {
  /** Whose notes are shown small in this silent bar, so that the player finds the entry after it; null: nobody's. */
  readonly cue: LineId | null;
  /** Whether it says whose they are: the first of two bars does. */
  readonly namesCue: boolean;
}

const kept = new WeakMap<Score, Map<LineId, readonly Stretch[]>>();

/** The whole part in order, silent bars gathered. A part without a note is left as it is: there somebody is going to write. */
export function stretchesOf(score: Score, line: Line): readonly Stretch[] {
  const known = kept.get(score) ?? new Map<LineId, readonly Stretch[]>();
  kept.set(score, known);
  const found = known.get(line.id);
  if (found !== undefined) return found;
  const made = gathered(score, line);
  known.set(line.id, made);
  return made;
}

/** Every bar by itself. */
export function singleBars(score: Score): readonly Stretch[] {
  return score.frames.map((_, bar) => barAlone(bar));
}

function barAlone(bar: number, cue: LineId | null = null, namesCue = false): Stretch {
  return { first: bar, last: bar, cue, namesCue };
}

function gathered(score: Score, line: Line): readonly Stretch[] {
  const silent = score.frames.map((_, bar) => isSilent(score, line, bar));
  if (silent.every((one) => one)) return singleBars(score);
  const sounds = (bar: number) => eventsOf(score, line, bar).some(({ kind }) => kind === "note");
  const entersAt = (bar: number) => bar !== -1 && sounds(bar);
  // Pickups without a note are not counted as rests, but nothing sounds in them either.
  const silentSince = (bar: number) => {
    let first = bar;
    while (first > 0 && !sounds(first - 1)) first -= 1;
    return first;
  };
  const stretches: Stretch[] = [];
  for (let bar = 0; bar < silent.length; ) {
    const end = silent.indexOf(false, bar);
    const last = (end === -1 ? silent.length : end) - 1;
    if (last < bar) {
      stretches.push(barAlone(bar));
      bar += 1;
      continue;
    }
    const cue = entersAt(end) ? cueFor(score, line, { first: silentSince(bar), last }) : null;
    const firstCued = cue === null ? last + 1 : Math.max(bar, cue.bars.first);
    for (; bar < firstCued; bar += 1) {
      const before = stretches.at(-1);
      if (before !== undefined && before.last === bar - 1 && silent[bar - 1] && !partsRests(score, line, bar))
        stretches[stretches.length - 1] = { ...before, last: bar };
      else stretches.push(barAlone(bar));
    }
    for (; bar <= last; bar += 1) stretches.push(barAlone(bar, cue?.line ?? null, bar === firstCued));
  }
  return stretches;
}

/** Whether something is printed at a bar, or just before it, that a rest must not run over. */
function partsRests(score: Score, line: Line, bar: number): boolean {
  const [before, frame] = [score.frames[bar - 1], score.frames[bar]] as [Frame, Frame];
  return (
    beginsLine(score.frames, bar) ||
    frame.section !== null ||
    frame.repeatStart ||
    before.repeatEnd ||
    frame.ending !== before.ending ||
    frame.meter.beats !== before.meter.beats ||
    frame.meter.unit !== before.meter.unit ||
    frame.tempo.beat !== before.tempo.beat ||
    frame.tempo.perMinute !== before.tempo.perMinute ||
    fifthsOf(writtenKey(line, frame)) !== fifthsOf(writtenKey(line, before)) ||
    playsWith(score, line, bar) !== ""
  );
}
