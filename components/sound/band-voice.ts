import type { ConcertSound, PlayerSounds } from "../../src/playback/concert-sounds.ts";
import type { TimeOf } from "./audio-clock.ts";

/** What sounds a band player's line, recorded or synthetic. */
export interface BandVoice {
  readonly player: PlayerSounds["player"];
  /** From a second of the schedule on, these sounds. A note that sounds then and is still there goes on. */
  follow(sounds: readonly ConcertSound[], from: number, time: TimeOf): void;
  /** Writes every note that begins before a time of the audio clock. */
  writeUntil(until: number): void;
  /** Ends the voice for good; fade it out before. */
  dispose(): void;
}
