import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { shownKey } from "../pitch/key-signature.ts";
import { positiveModulo } from "../pitch/letter.ts";
import { intervalBetween } from "../pitch/transpose.ts";
import type { Edit } from "../score/edit.ts";
import type { LineId } from "../score/line-id.ts";
import { pipeLines } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";

/** The edit by which the band moves along with a chanter. */
export type BandMove = Extract<Edit, { readonly kind: "move-band" }>;

/** Intervals as musicians say them, by semitones from one to six. */
const INTERVALS = ["a semitone", "a tone", "a minor third", "a major third", "a fourth", "a tritone"] as const;

/**
 * What giving a pipe line another setup takes. With a chanter of another name on the first pipes the band moves along, the short way round the
 * octave, so that the sketch stays in tune with itself; other hertz, scales, fingerings and drones, and another octave, move nothing else.
 */
export function editsForSetup(score: Score, line: LineId, setup: PipeSetup): readonly Edit[] {
  const change: Edit = { kind: "setup", line, setup };
  const first = pipeLines(score)[0];
  if (first?.id !== line) return [change];
  const { diatonic, chromatic } = intervalBetween(first.setup.lowAIs, setup.lowAIs);
  const near = positiveModulo(chromatic + 6, 12) - 6;
  if (near === 0) return [change];
  const octaves = (chromatic - near) / 12;
  const range = { first: 0, last: score.frames.length - 1 };
  return [change, { kind: "move-band", range, diatonic: diatonic - 7 * octaves, chromatic: near }];
}

/** The move of the band among some edits, or null where it stays. */
export function bandMoveOf(edits: readonly Edit[]): BandMove | null {
  return edits.find((edit) => edit.kind === "move-band") ?? null;
}

/** The move that takes the band back. */
export function bandMovedBack({ kind, range, diatonic, chromatic }: BandMove): BandMove {
  return { kind, range, diatonic: -diatonic + 0, chromatic: -chromatic + 0 };
}

/** What became of the band, and the key it begins in now: `The band moved with the chanter, a semitone down: E♭ major.` */
export function bandMoveInWords({ chromatic }: BandMove, after: Score): string {
  const key = after.frames[0]?.key;
  const interval = INTERVALS[Math.abs(chromatic) - 1];
  if (key === undefined || interval === undefined) throw new RangeError(`The band does not follow a chanter by ${chromatic} semitones.`);
  return `The band moved with the chanter, ${interval} ${chromatic < 0 ? "down" : "up"}: ${shownKey(key)}.`;
}
