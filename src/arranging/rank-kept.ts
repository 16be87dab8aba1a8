import { CHANTER_NOTES, type ChanterNote, type CrossFingeredNote, isCrossFingered } from "../pipes/chanter-note.ts";
import { writtenSpellingOf } from "../pipes/written-pitch.ts";
import { semitoneOfSpelling } from "../pitch/semitone.ts";
import type { SongNote } from "../song/song.ts";
import { foldablePhrases } from "./fit-phrases.ts";

/** Chanter notes by written semitone, MIDI numbering. */
export const NOTE_AT: ReadonlyMap<number, ChanterNote> = new Map(
  CHANTER_NOTES.map((note) => [semitoneOfSpelling(writtenSpellingOf(note)), note]),
);

/** A phrase as ranking sees it: how long each pitch sounds in it, and how often. */
export interface PhraseTally {
  readonly pitches: readonly { readonly semitone: number; readonly time: number; readonly count: number }[];
}

/** What of a tune a chanter keeps at one place. */
export interface Kept {
  /** Share of the sung time that is right after one octave choice for each phrase, 0 to 1. */
  readonly share: number;
  /** The same after one octave choice for the whole tune, 0 to 1. */
  readonly shareInOneOctave: number;
  readonly changed: number;
  /** Phrases that lie in another octave than the one before. */
  readonly folded: number;
  readonly crossFingered: number;
  /** Which cross-fingered notes are used, lowest first. */
  readonly uses: readonly CrossFingeredNote[];
}

/** Octaves a phrase may be moved by, nearest first. */
const OCTAVES = [0, -1, 1, -2, 2, -3, 3, -4, 4] as const;

/** What a fold must win to be worth it, as a share of the tune. Ours. */
const FOLD_SHARE = 0.015;

/** The phrases of a tune, counted. */
export function phraseTallies(notes: readonly SongNote[]): readonly PhraseTally[] {
  return foldablePhrases(notes).map((phrase) => {
    const found = new Map<number, { semitone: number; time: number; count: number }>();
    for (const { semitone, duration } of phrase) {
      const one = found.get(semitone) ?? { semitone, time: 0, count: 0 };
      found.set(semitone, { semitone, time: one.time + duration, count: one.count + 1 });
    }
    return { pitches: [...found.values()] };
  });
}

/**
 * What is kept when every pitch is moved by so many semitones into the written octave and may then be moved by octaves, a phrase at a time.
 * The cheapest octaves are found by dynamic programming over the phrases.
 */
export function keptAt(phrases: readonly PhraseTally[], shift: number, crossFingerings: readonly CrossFingeredNote[]): Kept {
  const total = phrases.reduce((sum, { pitches }) => sum + pitches.reduce((time, one) => time + one.time, 0), 0);
  const tallies = phrases.map((phrase) => OCTAVES.map((octave) => tallyOf(phrase, shift + 12 * octave, crossFingerings)));
  const inOne = OCTAVES.map((_, octave) => tallies.reduce((sum, row) => sum + (row[octave] as Tally).kept, 0));
  const path = cheapestOctaves(tallies, total * FOLD_SHARE);
  const taken = path.map((octave, at) => tallies[at]?.[octave] as Tally);
  const sum = (of: (tally: Tally) => number): number => taken.reduce((all, tally) => all + of(tally), 0);
  const uses = new Set(taken.flatMap((tally) => tally.uses));
  return {
    share: total === 0 ? 0 : sum(({ kept }) => kept) / total,
    shareInOneOctave: total === 0 ? 0 : Math.max(...inOne) / total,
    changed: sum(({ changed }) => changed),
    folded: path.filter((octave, at) => at > 0 && octave !== path[at - 1]).length,
    crossFingered: sum(({ crossFingered }) => crossFingered),
    uses: CHANTER_NOTES.filter(isCrossFingered).filter((note) => uses.has(note)),
  };
}

interface Tally {
  readonly kept: number;
  readonly changed: number;
  readonly crossFingered: number;
  readonly uses: readonly CrossFingeredNote[];
}

function tallyOf({ pitches }: PhraseTally, shift: number, speaking: readonly CrossFingeredNote[]): Tally {
  let [kept, changed, crossFingered] = [0, 0, 0];
  const uses: CrossFingeredNote[] = [];
  for (const { semitone, time, count } of pitches) {
    const note = NOTE_AT.get(semitone + shift);
    if (note === undefined || (isCrossFingered(note) && !speaking.includes(note))) {
      changed += count;
      continue;
    }
    kept += time;
    if (!isCrossFingered(note)) continue;
    crossFingered += count;
    uses.push(note);
  }
  return { kept, changed, crossFingered, uses };
}

/** For each phrase the place among `OCTAVES`: most time kept, a fold costing as much as so much time. */
function cheapestOctaves(tallies: readonly (readonly Tally[])[], foldTime: number): readonly number[] {
  let best: readonly number[] = OCTAVES.map(() => 0);
  const cameFrom: number[][] = [];
  for (const row of tallies) {
    const top = best.indexOf(Math.max(...best));
    const from = OCTAVES.map((_, octave) => ((best[octave] as number) >= (best[top] as number) - foldTime ? octave : top));
    best = row.map(({ kept }, octave) => {
      const before = from[octave] as number;
      return (best[before] as number) + kept - (before === octave ? 0 : foldTime);
    });
    cameFrom.push(from);
  }
  const path: number[] = [];
  let octave = best.indexOf(Math.max(...best));
  for (let at = tallies.length - 1; at >= 0; at--) {
    path.unshift(octave);
    octave = cameFrom[at]?.[octave] as number;
  }
  return path;
}
