import type { ChanterNote, CrossFingeredNote } from "../pipes/chanter-note.ts";
import { droneHertz } from "../pipes/drones.ts";
import { keysInReach } from "../pipes/keys-in-reach.ts";
import type { Drone, PipeSetup } from "../pipes/pipe-setup.ts";
import { centsOffBand, concertPitchOf, hertzOf, notesThatSpeak } from "../pipes/sounding.ts";
import { bandAToMatch, lowACentsOff, otherWay } from "../pipes/tempering.ts";
import { type WrittenPitch, writtenPitchOf } from "../pipes/written-pitch.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { keyName } from "../pitch/key-signature.ts";
import type { Hertz } from "../units/hertz.ts";
import { rounded } from "../units/shown.ts";

/** What `ninefold pitches --json` prints. Hertz and cents have three decimals; cents are measured from the concert pitch named beside them. */
export interface PitchReport {
  readonly lowA: { readonly hz: number; readonly concert: ConcertPitch; readonly cents: number };
  /** Null when low A is within 5 cents of its name. */
  readonly otherWay: { readonly concert: ConcertPitch; readonly cents: number; readonly bandAToMatch: number } | null;
  readonly bandA: number;
  readonly bandAToMatch: number;
  /** Those that speak, lowest first. */
  readonly notes: readonly {
    readonly note: ChanterNote;
    readonly written: WrittenPitch;
    readonly concert: ConcertPitch;
    readonly hz: number;
    readonly cents: number;
  }[];
  /** Those that are on, in the setup's order. */
  readonly drones: readonly { readonly drone: Drone["name"]; readonly hz: number }[];
  /** Those in reach, in the order of `keysInReach`. */
  readonly keys: readonly {
    readonly concert: string;
    readonly written: string;
    readonly needs: readonly CrossFingeredNote[];
    readonly tonic: ChanterNote;
    readonly crossFingeredTonic: boolean;
  }[];
}

/** Everything a setup sounds against a band, as plain data. */
export function pitchReport(setup: PipeSetup, bandA: Hertz): PitchReport {
  const other = otherWay(setup, bandA);
  return {
    lowA: { hz: inHertz(setup.lowA), concert: setup.lowAIs, cents: inCents(lowACentsOff(setup, bandA)) },
    otherWay: other && { concert: other.concert, cents: inCents(other.cents), bandAToMatch: inHertz(other.bandAToMatch) },
    bandA: inHertz(bandA),
    bandAToMatch: inHertz(bandAToMatch(setup)),
    notes: notesThatSpeak(setup).map((note) => ({
      note,
      written: writtenPitchOf(note),
      concert: concertPitchOf(setup, note),
      hz: inHertz(hertzOf(setup, note)),
      cents: inCents(centsOffBand(setup, note, bandA)),
    })),
    drones: setup.drones.filter(({ on }) => on).map((drone) => ({ drone: drone.name, hz: inHertz(droneHertz(setup, drone)) })),
    keys: keysInReach(setup).map((key) => ({
      concert: keyName(key.concert),
      written: keyName(key.written),
      needs: key.needs,
      tonic: key.tonicNote,
      crossFingeredTonic: key.crossFingeredTonic,
    })),
  };
}

const inHertz = (value: number): number => rounded(value, 3);
const inCents = (value: number): number => rounded(value, 3);
