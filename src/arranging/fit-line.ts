import type { ChanterNote } from "../pipes/chanter-note.ts";
import { fingerChange } from "../pipes/finger-change.ts";
import { fingeringTable } from "../pipes/fingering-table.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { notesThatSpeak, transpositionOf } from "../pipes/sounding.ts";
import { chordPitchClasses } from "../pitch/chord.ts";
import type { Key } from "../pitch/key.ts";
import { tonicPitchClass } from "../pitch/key-signature.ts";
import { positiveModulo } from "../pitch/letter.ts";
import type { SongBar, SongChord, SongNote } from "../song/song.ts";
import { quartersOf } from "../song/song-ticks.ts";
import { type FitChange, type FitChoice, type FitWeights, USUAL_FIT } from "./fit-choice.ts";
import type { NoteToFit } from "./fit-choices.ts";
import { cheapestPath, type PassingBetween } from "./fit-path.ts";
import { mayFoldAt } from "./fit-phrases.ts";
import { changeWords } from "./fit-words.ts";
import { keptAt, phraseTallies } from "./rank-kept.ts";

/** What is to be fitted to a chanter. */
export interface FitRequest {
  /** The marked notes of the chosen line, in order of time. */
  readonly notes: readonly SongNote[];
  readonly bars: readonly SongBar[];
  readonly chords: readonly SongChord[];
  /** The song's key, at concert pitch, before the band moves. */
  readonly key: Key;
  readonly setup: PipeSetup;
  /** The band's move, up positive. */
  readonly semitones: number;
  /** Places of the notes that should stay. */
  readonly pinned?: ReadonlySet<number>;
  readonly weights?: FitWeights;
}

/** A note of the tune and what became of it; found again by its place among the request's notes. */
export interface FittedNote {
  readonly was: SongNote;
  /** Null: another player has it. */
  readonly note: ChanterNote | null;
  /** Octaves its phrase lies above (below, if negative) most of the tune. */
  readonly octave: number;
  /** Null where nothing was done. */
  readonly change: FitChange | null;
  /** What was done and why, a sentence; empty where nothing was done. */
  readonly why: string;
}

/** A tune as the chanter plays it. */
export interface FittedLine {
  /** One for each note of the request, in its order. */
  readonly notes: readonly FittedNote[];
  readonly cost: number;
  /** Share of the sung time that is right, in whatever octave, 0 to 1. */
  readonly kept: number;
  /** False where less than nine tenths of it are right after one octave choice: then the whole tune does not fit, and it should be said. */
  readonly fits: boolean;
}

/** How much of a tune must be right for it to be called fitting: Largo (98 %) and Silent Night (93 %) are, the Star-Spangled Banner (83 %) is not. Ours. */
export const FITTING_SHARE = 0.9;

/** Octaves that may come into it, from nearest to farthest. */
const OCTAVES = [0, -1, 1, -2, 2, -3, 3, -4, 4] as const;

/** The cheapest way to play a tune on a chanter. */
export function fitLine(request: FitRequest): FittedLine {
  const { notes, setup, semitones, weights = USUAL_FIT } = request;
  const speaking = notesThatSpeak(setup);
  const shift = semitones - transpositionOf(setup).chromatic;
  const { choices, cost } = cheapestPath({
    notes: notesToFit(request, shift),
    octaves: octavesFor(notes, shift),
    speaking,
    weights,
    passing: passingOf(setup),
  });
  const home = homeOctave(choices, notes);
  const total = notes.reduce((sum, { duration }) => sum + duration, 0);
  const right = choices.reduce((sum, choice, at) => sum + (isRight(choice) ? (notes[at] as SongNote).duration : 0), 0);
  const crossFingerings = setup.crossFingerings.filter(({ speaks }) => speaks).map(({ note }) => note);
  return {
    notes: choices.map((choice, at) => {
      const octave = choice.octave - home;
      const change = choice.change ?? (octave === 0 ? null : "octave");
      return { was: notes[at] as SongNote, note: choice.note, octave, change, why: changeWords(change, choice, octave) };
    }),
    cost,
    kept: total === 0 ? 0 : right / total,
    fits: keptAt(phraseTallies(notes), shift, crossFingerings).shareInOneOctave >= FITTING_SHARE,
  };
}

function isRight({ change }: FitChoice): boolean {
  return change === null || change === "cross-fingering";
}

/** The octave that most of the time lies in. */
function homeOctave(choices: readonly FitChoice[], notes: readonly SongNote[]): number {
  const times = new Map<number, number>();
  choices.forEach((choice, at) => {
    if (choice.note !== null) times.set(choice.octave, (times.get(choice.octave) ?? 0) + (notes[at] as SongNote).duration);
  });
  return [...times].reduce((best, one) => (one[1] > best[1] ? one : best), [0, 0] as const)[0];
}

/** The octaves in which a note of the tune comes within reach of the chanter, written G4 to A5. */
function octavesFor(notes: readonly SongNote[], shift: number): readonly number[] {
  const reached = OCTAVES.filter((octave) => notes.some(({ semitone }) => within(semitone + shift + 12 * octave)));
  return reached.length === 0 ? [0] : reached;
}

function within(written: number): boolean {
  return written >= 67 && written <= 81;
}

function notesToFit({ notes, bars, chords, key, pinned }: FitRequest, shift: number): readonly NoteToFit[] {
  const foldable = notes.map((_, at) => mayFoldAt(notes, at));
  const tops = phraseTops(notes, foldable);
  const tonic = positiveModulo(tonicPitchClass(key) + shift, 12);
  const words = notes.some(({ syllables }) => syllables.length > 0);
  let under = -1;
  return notes.map((note, at) => {
    while ((chords[under + 1]?.onset ?? Number.POSITIVE_INFINITY) <= note.onset) under++;
    const before = notes[at - 1];
    const last = at === notes.length - 1 || foldable[at + 1] === true;
    const onFirstBeat = bars[note.bar]?.onset === note.onset;
    return {
      written: note.semitone + shift,
      quarters: quartersOf(note.duration),
      foldable: foldable[at] === true,
      melisma: words && note.syllables.length === 0 && before !== undefined && before.onset + before.duration === note.onset,
      prominence: (onFirstBeat ? 1 : 0) + (last ? 1 : 0) + (tops.has(at) ? 1 : 0),
      pinned: pinned?.has(at) ?? false,
      chord: (chordPitchClasses(chords[under]?.symbol ?? "") ?? []).map((tone) => positiveModulo(tone + shift, 12)),
      tonic,
    };
  });
}

/** Places of each phrase's first highest note. */
function phraseTops(notes: readonly SongNote[], foldable: readonly boolean[]): ReadonlySet<number> {
  const tops = new Set<number>();
  let top = 0;
  notes.forEach((note, at) => {
    if (foldable[at] === true) {
      if (at > 0) tops.add(top);
      top = at;
    } else if (note.semitone > (notes[top] as SongNote).semitone) top = at;
  });
  if (notes.length > 0) tops.add(top);
  return tops;
}

/** How many notes sound in between on this chanter, each pair looked up once. */
function passingOf(setup: PipeSetup): PassingBetween {
  const table = fingeringTable(setup);
  const known = new Map<string, number>();
  return (from, to) => {
    const name = `${from} ${to}`;
    const found = known.get(name) ?? fingerChange(table[from], table[to], table).passing.length;
    known.set(name, found);
    return found;
  };
}
