import type { Score } from "../score/score.ts";
import { TUNE_TYPES, type TuneType } from "./gracing-rules.ts";

/** Words that name a kind of tune, beside its own name; the first that is found decides, so that a `song` at a march's pace is a song. */
const NAMED: readonly (readonly [word: string, type: TuneType])[] = [
  ["song", "song line"],
  ["air", "slow air"],
  ["lament", "slow air"],
  ...TUNE_TYPES.map((type) => [type, type] as const),
];

/**
 * How a line is graced where nobody has said: by the kind of tune that holds in a bar, as a medley's tune or the credits name it
 * (`2/4 March`, `Slow air`), or else as a song line, which is graced least.
 */
export function tuneTypeOf({ frames, credits }: Pick<Score, "frames" | "credits">, bar: number): TuneType {
  const tune = frames.slice(0, bar + 1).findLast((frame) => frame.tune !== null)?.tune;
  const named = (tune?.tuneType || credits.tuneType).toLowerCase();
  return NAMED.find(([word]) => new RegExp(`\\b${word}s?\\b`).test(named))?.[1] ?? "song line";
}
