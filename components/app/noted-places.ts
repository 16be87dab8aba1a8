import { isCrossFingered } from "../../src/pipes/chanter-note.ts";
import type { Address } from "../../src/score/address.ts";
import { lineOf } from "../../src/score/line-of.ts";
import { eventAt, placedEvents } from "../../src/score/placed-events.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";

/** The note that was pressed: where a player doubles the pipes, theirs, so that it is chosen on the grid; his own where he has one. */
export function followed(score: Score, address: Address): Address {
  const bar = lineOf(score, address.line)?.bars[address.bar];
  if (bar?.kind !== "doubling") return address;
  const pipes = lineOf(score, bar.of)?.bars[address.bar];
  const found = pipes?.kind === "pipes" ? eventAt(pipes, address.at) : null;
  return { line: bar.of, bar: address.bar, at: found?.at ?? address.at };
}

/** Where a line's first note outside the nine stands; null where it has none. */
export function firstCrossFingered(line: PipeLine): Address | null {
  for (const [bar, events] of line.bars.entries()) {
    const found = placedEvents(events).find(({ event }) => event.kind === "note" && isCrossFingered(event.note));
    if (found !== undefined) return { line: line.id, bar, at: found.at };
  }
  return null;
}
