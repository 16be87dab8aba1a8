import { CHANTER_NOTES, type ChanterNote, isCrossFingered } from "../pipes/chanter-note.ts";
import { writtenSpellingOf } from "../pipes/written-pitch.ts";
import { semitoneOfSpelling } from "../pitch/semitone.ts";
import type { FitChoice, FitWeights } from "./fit-choice.ts";
import { NOTE_AT } from "./rank-kept.ts";

/** A note of the tune with all that its choices depend on. */
export interface NoteToFit {
  /** Written, before any octave is chosen, MIDI numbering. */
  readonly written: number;
  /** In quarters. */
  readonly quarters: number;
  /** Whether its phrase may lie in another octave than what comes before. */
  readonly foldable: boolean;
  /** Whether it is sung on the syllable of the note before, without a rest between. */
  readonly melisma: boolean;
  /** On a first beat, highest of its phrase, or the last of it: how many of them. */
  readonly prominence: number;
  readonly pinned: boolean;
  /** Written semitone classes of the chord under it; empty where none is known. */
  readonly chord: readonly number[];
  /** Written semitone class of the tonic. */
  readonly tonic: number;
}

/** How far from its pitch a note may be replaced, in semitones. */
const FARTHEST = 5;

/** Written semitone of a chanter note. */
export const SEMITONE_OF: ReadonlyMap<ChanterNote, number> = new Map(
  CHANTER_NOTES.map((note) => [note, semitoneOfSpelling(writtenSpellingOf(note))]),
);

/** All ways to play a note in one octave, at least one. A note that the chanter has is never replaced. */
export function choicesIn(octave: number, note: NoteToFit, speaking: readonly ChanterNote[], weights: FitWeights): readonly FitChoice[] {
  const wanted = note.written + 12 * octave;
  const weight = weightOf(note, weights);
  const own = NOTE_AT.get(wanted);
  const handed: FitChoice = { octave, note: null, change: "handed-over", wanted, played: wanted, cost: weights.handedOver * weight };
  if (own !== undefined && speaking.includes(own)) {
    if (!isCrossFingered(own)) return [{ octave, note: own, change: null, wanted, played: wanted, cost: 0 }, handed];
    const crossed: FitChoice = { octave, note: own, change: "cross-fingering", wanted, played: wanted, cost: weights.crossFingering };
    return [crossed, ...replacements(octave, note, speaking, weights), handed];
  }
  return [...replacements(octave, note, speaking, weights), handed];
}

function replacements(octave: number, note: NoteToFit, speaking: readonly ChanterNote[], weights: FitWeights): readonly FitChoice[] {
  const wanted = note.written + 12 * octave;
  const weight = weightOf(note, weights);
  return speaking.flatMap((one) => {
    const played = SEMITONE_OF.get(one) as number;
    const off = Math.abs(played - wanted);
    const choices: FitChoice[] = [];
    // What is held over a dropped note may lie anywhere: it is the note before.
    if (note.melisma) choices.push({ octave, note: one, change: "dropped", wanted, played, cost: weights.dropped * weight });
    if (off === 0 || off > FARTHEST || isCrossFingered(one)) return choices;
    const flatSeventh = wanted - played === 1 && played % 12 === (note.tonic + 10) % 12;
    const change = flatSeventh ? "flat-seventh" : note.chord.includes(played % 12) ? "chord-note" : off <= 2 ? "neighbour" : null;
    if (change === null) return choices;
    const each = { "flat-seventh": weights.flatSeventh, "chord-note": weights.chordNote, neighbour: weights.neighbour }[change];
    choices.push({ octave, note: one, change, wanted, played, cost: (each + off * weights.semitoneOff) * weight });
    return choices;
  });
}

function weightOf(note: NoteToFit, weights: FitWeights): number {
  // A long note is missed more than a short one, but four quarters not four times as much.
  const length = 0.5 + Math.min(note.quarters, 4) / 2;
  return length * weights.prominence ** note.prominence * (note.pinned ? weights.pinned : 1);
}
