import { partKeyOf } from "../ensemble/part-key.ts";
import type { Player } from "../ensemble/player.ts";
import { type CrossFingeredNote, isCrossFingered } from "../pipes/chanter-note.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { notesThatSpeak, transpositionOf } from "../pipes/sounding.ts";
import type { Key } from "../pitch/key.ts";
import { fifthsOf, scalePitchClasses, tonicPitchClass } from "../pitch/key-signature.ts";
import { positiveModulo } from "../pitch/letter.ts";
import type { SongNote } from "../song/song.ts";
import { type Kept, keptAt, NOTE_AT, phraseTallies } from "./rank-kept.ts";
import { keyWithFewestAccidentals } from "./rank-key.ts";
import { CROSS_FINGERED_TONIC_MARGIN, RANK_PRESETS, type RankWeights } from "./rank-weights.ts";

/** What is asked when setups are ranked. */
export interface RankRequest {
  /** The marked notes of the chosen line, in order of time. */
  readonly notes: readonly SongNote[];
  /** The song's key, at concert pitch. */
  readonly key: Key;
  /** The piper's chanters, each with the cross-fingerings that speak on it. */
  readonly setups: readonly PipeSetup[];
  readonly band: readonly Player[];
  readonly weights?: RankWeights;
}

/** One setup in one key, and what it costs whom. */
export interface RankedSetup extends Kept {
  readonly setup: PipeSetup;
  readonly concertKey: Key;
  readonly writtenKey: Key;
  /** The band's move, -5 to 6, up positive. */
  readonly semitones: number;
  /** Which degree of the key's scale the drones' low A is, 1 to 7; null where it is none of it, or all drones are off. */
  readonly drone: number | null;
  /** Smaller is better; in hundredths of the tune where weights are the usual ones. */
  readonly cost: number;
  /** MIDI numbering, after the band's move. */
  readonly singerLowest: number;
  readonly singerHighest: number;
  /** What each player of the band reads, in the band's order. */
  readonly reads: readonly { readonly player: Player; readonly key: Key }[];
  /** Accidentals in the worst signature of the band's; 0 without a band. */
  readonly worstSignature: number;
}

/** Every setup in every key, best first. Nothing sung: nothing ranked. */
export function rankSetups(request: RankRequest): readonly RankedSetup[] {
  const { notes, setups, weights = RANK_PRESETS["tune-first"] } = request;
  if (notes.length === 0) return [];
  const phrases = phraseTallies(notes);
  const known = new Map<string, Kept>();
  const kept = (shift: number, crossFingerings: readonly CrossFingeredNote[]): Kept => {
    // Octaves are chosen inside, so that twelve shifts are all there are, whatever the chanter.
    const name = `${positiveModulo(shift, 12)} ${crossFingerings.join(" ")}`;
    const found = known.get(name) ?? keptAt(phrases, shift, crossFingerings);
    known.set(name, found);
    return found;
  };
  const [lowest, highest] = rangeOf(notes);
  const rows = setups.flatMap((setup) =>
    subsets(notesThatSpeak(setup).filter(isCrossFingered)).flatMap((crossFingerings) =>
      Array.from({ length: 12 }, (_, at) => at - 5).flatMap((semitones) => {
        const shift = semitones - transpositionOf(setup).chromatic;
        const one = kept(shift, crossFingerings);
        // A cross-fingering that is not used makes no other row.
        if (one.uses.length < crossFingerings.length) return [];
        return [rowOf(request, setup, semitones, one, [lowest, highest], weights)];
      }),
    ),
  );
  const plain = rows.filter(({ uses }) => uses.length === 0);
  return rows.map((row) => (crossFingeredFooting(row) ? { ...row, cost: notAbove(row, plain) } : row)).sort(inOrder);
}

function rowOf(
  { key, band }: RankRequest,
  setup: PipeSetup,
  semitones: number,
  kept: Kept,
  [lowest, highest]: readonly [number, number],
  weights: RankWeights,
): RankedSetup {
  const concertTonic = positiveModulo(tonicPitchClass(key) + semitones, 12);
  const { chromatic } = transpositionOf(setup);
  const concertKey = keyWithFewestAccidentals(concertTonic, key.mode);
  const writtenKey = keyWithFewestAccidentals(positiveModulo(concertTonic - chromatic, 12), key.mode);
  const reads = band.map((player) => ({ player, key: partKeyOf(player, concertKey).key }));
  const worstSignature = reads.reduce((worst, one) => Math.max(worst, Math.abs(fifthsOf(one.key))), 0);
  const degree = setup.drones.some(({ on }) => on) ? scalePitchClasses(writtenKey).indexOf(LOW_A_CLASS) + 1 : 0;
  const drone = degree === 0 ? null : degree;
  const dronesBadly = setup.drones.some(({ on }) => on) && drone !== 1 && drone !== 5;
  const cost =
    weights.tune * (1 - kept.share) +
    weights.fold * kept.folded +
    weights.crossFingering * kept.uses.length +
    (dronesBadly ? weights.drone : 0) +
    weights.bandMove * Math.abs(semitones) +
    weights.reading * worstSignature;
  return {
    ...kept,
    setup,
    concertKey,
    writtenKey,
    semitones,
    drone,
    cost,
    singerLowest: lowest + semitones,
    singerHighest: highest + semitones,
    reads,
    worstSignature,
  };
}

/** Semitone class of written A. */
const LOW_A_CLASS = 9;

/** A cost that puts no row above a plain one which keeps at least its share less the margin. */
function notAbove(row: RankedSetup, plain: readonly RankedSetup[]): number {
  const before = plain.filter(({ share }) => share >= row.share - CROSS_FINGERED_TONIC_MARGIN);
  return before.reduce((cost, one) => Math.max(cost, one.cost), row.cost);
}

/** Whether the tonic or the fifth is had by a cross-fingering that the tune uses. */
function crossFingeredFooting({ uses, writtenKey }: Pick<RankedSetup, "uses" | "writtenKey">): boolean {
  const scale = scalePitchClasses(writtenKey);
  return [...NOTE_AT].some(
    ([semitone, note]) => isCrossFingered(note) && uses.includes(note) && [scale[0], scale[4]].includes(semitone % 12),
  );
}

/** Cheaper first; among equals plain, drones on tonic or fifth, the smaller move, the easier reading. */
function inOrder(a: RankedSetup, b: RankedSetup): number {
  const droneRank = ({ drone }: RankedSetup): number => (drone === 1 || drone === 5 ? 0 : 1);
  return (
    a.cost - b.cost ||
    a.uses.length - b.uses.length ||
    droneRank(a) - droneRank(b) ||
    Math.abs(a.semitones) - Math.abs(b.semitones) ||
    a.worstSignature - b.worstSignature
  );
}

function rangeOf(notes: readonly SongNote[]): readonly [number, number] {
  return notes.reduce<readonly [number, number]>(
    ([low, high], { semitone }) => [Math.min(low, semitone), Math.max(high, semitone)],
    [127, 0],
  );
}

/** Every choice of some of them, none first. */
function subsets<One>(of: readonly One[]): readonly (readonly One[])[] {
  return Array.from({ length: 2 ** of.length }, (_, choice) => of.filter((_one, at) => (choice & (1 << at)) !== 0));
}
