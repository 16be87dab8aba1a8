import type { PlayerId } from "../ensemble/player.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { equalHertz } from "../pitch/reference-pitch.ts";
import type { Address } from "../score/address.ts";
import { concertEventsOf } from "../score/doubling.ts";
import type { LineId } from "../score/line-id.ts";
import type { ConcertLine, Score } from "../score/score.ts";
import type { Hertz } from "../units/hertz.ts";
import type { Seconds } from "../units/seconds.ts";
import { playedEvents } from "./played-events.ts";
import type { Timeline } from "./timeline.ts";

/** One pitch that a band player sounds once, ties joined. A chord is several with the same start. */
export interface ConcertSound {
  readonly start: Seconds;
  readonly stop: Seconds;
  readonly pitch: ConcertPitch;
  readonly hertz: Hertz;
  /** The written note it begins with. */
  readonly address: Address;
}

/** Everything one band player sounds, in order of start. */
export interface PlayerSounds {
  readonly line: LineId;
  readonly player: PlayerId;
  readonly sounds: readonly ConcertSound[];
}

/** What a band player sounds, doublings resolved, in equal temperament at the band's A. */
export function playerSounds(timeline: Timeline, score: Score, line: ConcertLine): PlayerSounds {
  const sounds: ConcertSound[] = [];
  /** Where in `sounds` the pitches stand that are tied over to the next event. */
  let tied = new Map<ConcertPitch, number>();
  for (const { event, address, start, end, toItsEnd } of playedEvents(timeline, line.id, (bar) => concertEventsOf(score, line, bar))) {
    const tiedOn = new Map<ConcertPitch, number>();
    if (event.kind === "note") {
      for (const pitch of event.pitches) {
        const joined = tied.get(pitch);
        const before = joined === undefined ? undefined : sounds[joined];
        const index = joined !== undefined && before?.stop === start ? joined : sounds.length;
        sounds[index] =
          index === joined && before !== undefined
            ? { ...before, stop: end }
            : { start, stop: end, pitch, hertz: equalHertz(pitch, score.bandA), address };
        if (event.tied && toItsEnd) tiedOn.set(pitch, index);
      }
    }
    tied = tiedOn;
  }
  return { line: line.id, player: line.player, sounds };
}
