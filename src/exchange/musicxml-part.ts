import type { PartStyle } from "../engraving/part-style.ts";
import { playerOf } from "../ensemble/catalogue.ts";
import { partKeyOf } from "../ensemble/part-key.ts";
import type { Clef } from "../ensemble/player.ts";
import { transpositionOf } from "../pipes/sounding.ts";
import { inverted, type Transposition } from "../pitch/transpose.ts";
import type { Frame } from "../score/frame.ts";
import type { Line, Score } from "../score/score.ts";

/** One line on its way into a file: the score it belongs to and the name the file knows it by. */
export interface Part {
  readonly score: Score;
  readonly line: Line;
  /** `P1`, `P2`: unique in the file. */
  readonly id: string;
  readonly charts: PartStyle["charts"];
  /** How many silent bars are read as one rest, by the bar they begin with. Empty where other parts stand beside this one. */
  readonly restsFrom: ReadonlyMap<number, number>;
}

/** What to add to the written pitch to get the sounding one. Its chromatic part is the same in every bar of a part; a respelled key may move the other. */
export function partTransposition({ line }: Part, frame: Frame): Transposition {
  if (line.kind === "pipes") return transpositionOf(line.setup);
  return inverted(partKeyOf(playerOf(line.player), frame.key).transposition);
}

/** The clef, and octaves by which the clef itself shifts what is read. */
export function partClef({ line }: Part): { readonly clef: Clef; readonly octaves: number } {
  if (line.kind === "pipes") return { clef: "treble", octaves: 0 };
  const { clef, octaveClef } = playerOf(line.player);
  return { clef, octaves: octaveClef };
}
