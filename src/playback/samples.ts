import type { PlayerId } from "../ensemble/player.ts";
import type { Hertz } from "../units/hertz.ts";
import table from "./sample-table.json" with { type: "json" };

/*
 * The recorded voices of the band, as data. The recordings lie in components/sound/samples and are made by scripts/samples.mjs, which also
 * measures them: as recorded they are up to 13 cents off.
 */

/** An instrument there are recordings of. */
export type InstrumentId = keyof typeof table.instruments;

/** One recorded note. Places and lengths are in samples of `RECORDED_RATE`. */
export interface SampledNote {
  /** MIDI key, 60 is middle C; on the drums, General MIDI's percussion key. */
  readonly key: number;
  /** How far it sounds from its key at A 440, cents: measured over the loop where it has one, over the fundamental of a piano. */
  readonly cents: number;
  /** Where it begins in the instrument's file. */
  readonly at: number;
  readonly length: number;
  /** From where to where it goes round while it is held, from its beginning; null where it dies away by itself. */
  readonly loop: readonly [start: number, end: number] | null;
}

/** Samples in a second of the recordings. */
export const RECORDED_RATE: number = table.rate;

/** How strong every recording is (root mean square of what is held, or of the first half second), against full scale. */
export const RECORDED_LEVEL: number = table.level;

/** The recorded notes of an instrument, lowest first within each register. */
export function notesOf(instrument: InstrumentId): readonly SampledNote[] {
  return table.instruments[instrument] as unknown as readonly SampledNote[];
}

const INSTRUMENTS: readonly { readonly players: RegExp; readonly instrument: InstrumentId }[] = [
  { players: /^(?:fiddle|viola)$/, instrument: "fiddle" },
  { players: /whistle/, instrument: "whistle" },
  { players: /^clarinet/, instrument: "clarinet" },
  { players: /-sax$/, instrument: "saxophone" },
  { players: /trumpet|cornet|flugelhorn/, instrument: "trumpet" },
  { players: /horn|baritone|euphonium/, instrument: "horn" },
  { players: /^trombone/, instrument: "trombone" },
  { players: /^tuba$|^bass-(?:eb|bb)$/, instrument: "tuba" },
  { players: /^(?:guitar|mandolin)$/, instrument: "steel-guitar" },
  { players: /^bass-guitar$/, instrument: "electric-bass" },
];

/** What a player is heard on: the instrument itself, or of those recorded the nearest to it. */
export function instrumentOf(player: PlayerId): InstrumentId {
  if (player in table.instruments) return player as InstrumentId;
  return INSTRUMENTS.find(({ players }) => players.test(player))?.instrument ?? "fiddle";
}

/** A recorded note and how much faster it is played to sound at a pitch. */
export interface PitchedSample {
  readonly note: SampledNote;
  /** 2: twice as fast, an octave up. */
  readonly rate: number;
}

/** The recording nearest to a frequency, and the speed that brings it exactly there; of two equally near the higher, since slower sounds better than faster. */
export function sampleAt(instrument: InstrumentId, hertz: Hertz): PitchedSample {
  let nearest: PitchedSample | null = null;
  for (const note of notesOf(instrument)) {
    const rate = hertz / recordedHertz(note);
    if (
      nearest === null ||
      Math.abs(Math.log(rate)) < Math.abs(Math.log(nearest.rate)) - 1e-9 ||
      (note.key > nearest.note.key && sameDistance(rate, nearest.rate))
    )
      nearest = { note, rate };
  }
  if (nearest === null) throw new RangeError(`There is no recording of ${instrument}.`);
  return nearest;
}

/** What a recording sounds as it is. */
export function recordedHertz({ key, cents }: SampledNote): number {
  return 440 * 2 ** ((key - 69) / 12 + cents / 1200);
}

function sameDistance(one: number, other: number): boolean {
  return Math.abs(Math.abs(Math.log(one)) - Math.abs(Math.log(other))) <= 1e-9;
}

/** The loudness that counts as the first sound of a file. */
export const HEARD: number = table.heard;

/** Where an instrument's file first rises above `HEARD`: a decoder that puts silence in front is found out by it. */
export function firstHeard(instrument: InstrumentId): number {
  return table.firstHeard[instrument];
}
