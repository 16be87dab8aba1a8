import type { Player } from "../ensemble/player.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { semitoneOf } from "../pitch/semitone.ts";
import type { Ticks } from "../units/ticks.ts";
import type { ConcertEvent, ConcertNote } from "./bar.ts";
import { lengthFindings } from "./check-lengths.ts";
import type { Frame } from "./frame.ts";
import { soundAlike } from "./like-events.ts";
import { type LocalFinding, looseTie } from "./local-finding.ts";
import { placedEvents } from "./placed-events.ts";

/** A note that is tied over the bar line. */
export interface TiedOver {
  readonly note: ConcertNote;
  readonly at: Ticks;
}

/** What was found in a bar that a player has to himself. */
export interface CheckedOwnBar {
  readonly findings: readonly LocalFinding[];
  readonly tiedOver: TiedOver | null;
}

/** Looks at one bar of a player's own; `before` is what the bar before ties into it. */
export function checkOwnBar(events: readonly ConcertEvent[], frame: Frame, before: TiedOver | null): CheckedOwnBar {
  const findings: LocalFinding[] = [...lengthFindings({ events }, frame, before !== null)];
  let tied = before === null ? null : { ...before, barsBack: 1 };
  for (const { at, event } of placedEvents({ events })) {
    if (tied !== null && (event.kind === "rest" || !soundAlike(tied.note, event))) findings.push(looseTie(tied.barsBack, tied.at));
    tied = event.kind === "note" && event.tied ? { note: event, at, barsBack: 0 } : null;
  }
  return { findings, tiedOver: tied === null || tied.barsBack > 0 ? null : { note: tied.note, at: tied.at } };
}

/** The first note in a bar that its player cannot reach. */
export interface OutOfReach {
  readonly at: Ticks;
  readonly pitch: ConcertPitch;
  /** So many octaves up (down, if negative) it is in reach, or nearest to it. */
  readonly octaves: number;
}

/** The first note in a bar that a player cannot reach, or null. */
export function outOfReach(events: readonly ConcertEvent[], player: Player): OutOfReach | null {
  for (const { at, event } of placedEvents({ events })) {
    if (event.kind === "rest") continue;
    for (const pitch of event.pitches) {
      const octaves = octavesIntoReach(pitch, player);
      if (octaves !== 0) return { at, pitch, octaves };
    }
  }
  return null;
}

/** How many octaves bring a pitch into reach, up positive; 0 when it is. */
export function octavesIntoReach(pitch: ConcertPitch, { range }: Player): number {
  const under = semitoneOf(range.lowest) - semitoneOf(pitch);
  const over = semitoneOf(pitch) - semitoneOf(range.highest);
  if (under > 0) return Math.ceil(under / 12);
  return over > 0 ? -Math.ceil(over / 12) : 0;
}
