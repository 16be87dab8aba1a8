import { CHANTER_NOTES, type ChanterNote, type PlainNote } from "./chanter-note.ts";
import { type FingerChange, fingerChange } from "./finger-change.ts";
import { shareOfOrders } from "./finger-orders.ts";
import { type FingeringTable, fingeringTable } from "./fingering-table.ts";
import type { Hole } from "./fingerings.ts";
import { movementsOf } from "./gracenote-group.ts";
import { lettersOfGracenotes } from "./gracenote-letters.ts";
import type { GracenoteMovement } from "./gracenote-movement.ts";
import type { PipeSetup } from "./pipe-setup.ts";

/** What the fingers do from one note to the next by way of its gracenotes, and what may sound that nobody wrote. */
export interface Crossing {
  /**
   * Step by step: from the note before to the first gracenote, from each gracenote to the next, from the last to the note. What is meant is
   * left out of what passes: the two notes and the gracenotes are no other note when they are heard early or late.
   */
  readonly steps: readonly FingerChange[];
  /** Every note of the nine that passes in some step, once; the nearest to the note before come first. */
  readonly notes: readonly PlainNote[];
  /** In what share of the orders in which fingers can move at least one of them sounds, 0 to 1: how much care the step asks for. */
  readonly share: number;
  /** The finger of the first gracenote, numbered as the holes, if nothing passes once it is off before any other moves; else null. */
  readonly hiddenBy: number | null;
}

const NOTHING: Crossing = { steps: [], notes: [], share: 0, hiddenBy: null };

const crossings = new WeakMap<FingeringTable, Map<string, Crossing>>();

/**
 * The crossing from a note to the next, kept for each setup. Gracenotes take the change upon them: the fingers go from the note before
 * straight to the first gracenote, which is fingered upon what follows it. So between D and a G gracenote on E all that moves from D to E
 * moves, and the first finger with it; from that gracenote to E one finger goes down and nothing passes.
 *
 *     D  X XXX OOOX  →  {g} on E  X OXO XXXO  →  E  X XXO XXXO
 *
 * Gracenotes that cannot be fingered are taken as if they were not there.
 * @param from null after silence: then only the steps after the first gracenote count.
 */
export function crossingOf(setup: PipeSetup, from: ChanterNote | null, to: ChanterNote, gracenotes: readonly PlainNote[]): Crossing {
  if (from === null && gracenotes.length < 2) return NOTHING;
  const table = fingeringTable(setup);
  const known = crossings.get(table) ?? new Map<string, Crossing>();
  crossings.set(table, known);
  const key = `${from} ${to} ${lettersOfGracenotes(gracenotes)}`;
  const crossing = known.get(key) ?? crossingIn(table, from, to, gracenotes);
  known.set(key, crossing);
  return crossing;
}

function crossingIn(table: FingeringTable, from: ChanterNote | null, to: ChanterNote, gracenotes: readonly PlainNote[]): Crossing {
  const group = movementsOf(table, gracenotes, { before: from, note: to });
  const movements = group.ok ? group.value : [];
  const sounds = [...(from === null ? [] : [table[from]]), ...movements.map(({ holes }) => holes), table[to]];
  const meant: readonly (ChanterNote | null)[] = [from, to, ...(group.ok ? gracenotes : [])];
  const step = (one: readonly Hole[], next: readonly Hole[]): FingerChange => {
    const change = fingerChange(one, next, table);
    return { ...change, passing: change.passing.filter(({ note }) => !meant.includes(note)) };
  };
  const steps = sounds.slice(1).map((next, index) => step(sounds[index] as readonly Hole[], next));
  const heard = new Set(steps.flatMap(({ passing }) => passing.map(({ note }) => note)));
  const first = from === null ? null : hiddenBy(table[from], movements[0], step);
  return {
    steps,
    notes: nearestFirst(heard, from ?? to),
    share: 1 - steps.reduce((none, change) => none * (1 - shareOf(change)), 1),
    hiddenBy: first !== null && steps.slice(1).every(({ passing }) => passing.length === 0) && heard.size > 0 ? first : null,
  };
}

function shareOf({ lifts, closes, passing }: FingerChange): number {
  return shareOfOrders(
    [...lifts, ...closes],
    passing.map(({ moved }) => moved),
  );
}

/** A gracenote's one finger, if nothing passes on the way to it once that finger is off. */
function hiddenBy(
  before: readonly Hole[],
  movement: GracenoteMovement | undefined,
  step: (one: readonly Hole[], next: readonly Hole[]) => FingerChange,
): number | null {
  const [finger, other] = movement?.fingers ?? [];
  if (movement?.kind !== "lift" || finger === undefined || other !== undefined || before[finger] !== "closed") return null;
  return step(before.with(finger, "open"), movement.holes).passing.length === 0 ? finger : null;
}

function nearestFirst(notes: ReadonlySet<PlainNote>, near: ChanterNote): readonly PlainNote[] {
  const away = (note: PlainNote): number => Math.abs(CHANTER_NOTES.indexOf(note) - CHANTER_NOTES.indexOf(near));
  return [...notes].sort((one, other) => away(one) - away(other) || CHANTER_NOTES.indexOf(one) - CHANTER_NOTES.indexOf(other));
}
