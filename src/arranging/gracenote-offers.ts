import type { PlainNote } from "../pipes/chanter-note.ts";
import { type EmbellishmentPlacement, embellishmentInWords } from "../pipes/embellishment.ts";
import { lettersOfGracenotes } from "../pipes/gracenote-letters.ts";
import { GRACENOTE_SECONDS } from "../pipes/gracenote-seconds.ts";
import type { Address } from "../score/address.ts";
import { timeOf } from "../score/bar-starts.ts";
import { pipeLineOf } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import { type Seconds, seconds } from "../units/seconds.ts";
import { fittingGroups } from "./fitting-groups.ts";
import { graceSites } from "./grace-sites.ts";

/** Gracenotes that may be put on a note. */
export interface GracenoteOffer {
  /** As it stands in a sentence: `light throw`. */
  readonly name: string;
  /** In letters, `{Gdc}`. */
  readonly spelling: string;
  /** In the order they are played. */
  readonly gracenotes: readonly PlainNote[];
  readonly placement: EmbellishmentPlacement;
  /** How long all of it takes, seconds. */
  readonly seconds: Seconds;
}

/** Exactly what fits on the note at a place, or on the note it is tied to; the most usual first. None where no pipe note is. */
export function offersFor(score: Score, address: Address): readonly GracenoteOffer[] {
  const line = pipeLineOf(score, address.line);
  if (line === null) return [];
  const time = timeOf(score.frames, address);
  const bar = line.bars[address.bar];
  const site = graceSites(score, line).findLast((one) => timeOf(score.frames, one.address) <= time);
  if (bar === undefined || site === undefined || !soundsAt(bar.events, address.at)) return [];
  return fittingGroups(line.setup, site).map(({ name, gracenotes, placement }) => ({
    name: embellishmentInWords(name),
    spelling: lettersOfGracenotes(gracenotes),
    gracenotes,
    placement,
    seconds: seconds(gracenotes.length * GRACENOTE_SECONDS),
  }));
}

function soundsAt(events: readonly { readonly kind: "note" | "rest"; readonly ticks: number }[], at: number): boolean {
  let start = 0;
  return events.some(({ kind, ticks }) => {
    const here = start <= at && at < start + ticks;
    start += ticks;
    return here && kind === "note";
  });
}
