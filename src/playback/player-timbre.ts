import type { Spectrum } from "../acoustics/partial.ts";
import type { PlayerId } from "../ensemble/player.ts";
import { decibels } from "../units/decibels.ts";
import { type Seconds, seconds } from "../units/seconds.ts";

/** How a band player's note begins, goes on and ends. Times are time constants: after one, 63 % of the way is gone. */
export interface PlayerTimbre {
  readonly spectrum: Spectrum;
  readonly attack: Seconds;
  /** From full level down to `sustain` of it while the note is held; plucked strings go to 0. */
  readonly decay: Seconds;
  readonly sustain: number;
  readonly release: Seconds;
}

/** The families whose sound stands in for every instrument in them. */
export type TimbreFamily = "bowed" | "flute" | "reed" | "brass" | "plucked";

/** *Source:* none. Synthetic stand-ins, by ear: enough to hear pitch and balance, no more. */
export const PLAYER_TIMBRES: Readonly<Record<TimbreFamily, PlayerTimbre>> = {
  bowed: timbre([0, -4, -7, -8, -12, -14, -15, -19, -22, -24, -27, -30, -33, -36], 0.018, 0.25, 0.85, 0.03),
  flute: timbre([0, -10, -18, -27, -34, -42], 0.015, 0.2, 0.9, 0.025),
  reed: timbre([0, -14, -3, -16, -8, -18, -13, -21, -19, -26, -25, -31], 0.01, 0.2, 0.9, 0.02),
  brass: timbre([-2, 0, -1, -4, -7, -11, -15, -19, -23, -27, -31], 0.014, 0.15, 0.8, 0.02),
  plucked: timbre([0, -5, -9, -12, -18, -21, -26, -30, -35, -40], 0.0015, 0.7, 0, 0.05),
};

const FAMILIES: readonly { readonly players: RegExp; readonly family: TimbreFamily }[] = [
  { players: /^(?:fiddle|viola|cello)$/, family: "bowed" },
  { players: /^(?:flute|voice)$|whistle/, family: "flute" },
  { players: /^(?:oboe|clarinet|accordion)|-sax$/, family: "reed" },
  { players: /^(?:mandolin|piano|guitar|bass-guitar|double-bass)$/, family: "plucked" },
  { players: /cornet|trumpet|flugelhorn|horn|baritone|euphonium|trombone|tuba|^bass-/, family: "brass" },
];

/** The family that stands in for a player; bowed strings for one that is in none. */
export function familyOf(player: PlayerId): TimbreFamily {
  return FAMILIES.find(({ players }) => players.test(player))?.family ?? "bowed";
}

/** How a player sounds. */
export function timbreOf(player: PlayerId): PlayerTimbre {
  return PLAYER_TIMBRES[familyOf(player)];
}

function timbre(levels: readonly number[], attack: number, decay: number, sustain: number, release: number): PlayerTimbre {
  return {
    spectrum: levels.map(decibels),
    attack: seconds(attack),
    decay: seconds(decay),
    sustain,
    release: seconds(release),
  };
}
