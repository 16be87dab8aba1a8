import type { ChanterNote } from "../pipes/chanter-note.ts";
import type { FitChoice, FitWeights } from "./fit-choice.ts";
import { choicesIn, type NoteToFit } from "./fit-choices.ts";

/** How many of the nine can sound between two notes. */
export type PassingBetween = (from: ChanterNote, to: ChanterNote) => number;

/** All that the cheapest way through a tune depends on. */
export interface FitTask {
  readonly notes: readonly NoteToFit[];
  /** Octaves a phrase may be moved by; at least one. */
  readonly octaves: readonly number[];
  /** What the chanter plays, lowest first. */
  readonly speaking: readonly ChanterNote[];
  readonly weights: FitWeights;
  readonly passing: PassingBetween;
}

/** All ways to play the note at a place, in every octave. */
export function choicesAt({ notes, octaves, speaking, weights }: FitTask, at: number): readonly FitChoice[] {
  const note = notes[at];
  return note === undefined ? [] : octaves.flatMap((octave) => choicesIn(octave, note, speaking, weights));
}

/** What one choice costs after another, itself left out; infinite where it cannot follow. */
export function stepCost({ weights, passing }: FitTask, from: FitChoice, to: FitChoice, foldable: boolean): number {
  const folds = from.octave !== to.octave;
  if (folds && !foldable) return Number.POSITIVE_INFINITY;
  if (to.change === "dropped") return !folds && from.note === to.note ? 0 : Number.POSITIVE_INFINITY;
  const fold = folds ? weights.fold : 0;
  if (to.note === null) return fold + (from.note === null ? 0 : weights.handOver);
  if (from.note === null) return fold;
  // Two notes that are as they were cost nothing, so that what fits is left alone.
  if (from.change === null && to.change === null) return fold;
  const move = to.played - from.played;
  const wish = to.wanted - from.wanted;
  const contour = Math.sign(move) === Math.sign(wish) || folds ? 0 : weights.contour;
  const leap = folds ? 0 : Math.max(0, Math.abs(move) - Math.abs(wish)) * weights.leap;
  return fold + contour + leap + passing(from.note, to.note) * weights.crossing;
}

/** The cheapest way through, a choice for each note, and what it costs. Time grows with the number of notes. */
export function cheapestPath(task: FitTask): { readonly choices: readonly FitChoice[]; readonly cost: number } {
  const layers = task.notes.map((_, at) => choicesAt(task, at));
  const cameFrom: number[][] = [];
  let costs = (layers[0] ?? []).map((choice) => startCost(choice, task.weights));
  for (let at = 1; at < layers.length; at++) {
    const [before, here] = [layers[at - 1] as readonly FitChoice[], layers[at] as readonly FitChoice[]];
    const foldable = task.notes[at]?.foldable ?? false;
    const from: number[] = [];
    const next = here.map((choice, place) => {
      let [best, bestCost] = [0, Number.POSITIVE_INFINITY];
      for (let one = 0; one < before.length; one++) {
        const cost = (costs[one] as number) + stepCost(task, before[one] as FitChoice, choice, foldable);
        if (cost < bestCost) [best, bestCost] = [one, cost];
      }
      from[place] = best;
      return bestCost + choice.cost;
    });
    cameFrom.push(from);
    costs = next;
  }
  const cost = costs.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY);
  const choices: FitChoice[] = [];
  let place = costs.indexOf(cost);
  for (let at = layers.length - 1; at >= 0; at--) {
    choices.push(layers[at]?.[place] as FitChoice);
    place = cameFrom[at - 1]?.[place] ?? 0;
  }
  return { choices: choices.reverse(), cost: layers.length === 0 ? 0 : cost };
}

/** What the first note's choice costs: nothing is before it that could be held. */
export function startCost(choice: FitChoice, weights: FitWeights): number {
  if (choice.change === "dropped") return Number.POSITIVE_INFINITY;
  return choice.cost + (choice.note === null ? weights.handOver : 0);
}
