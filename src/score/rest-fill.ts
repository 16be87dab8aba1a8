import { CHANTER_NOTES, type ChanterNote, NINE_NOTES, type PlainNote } from "../pipes/chanter-note.ts";
import { crossingOf } from "../pipes/crossing.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { concertPitchOf } from "../pipes/sounding.ts";
import type { Key } from "../pitch/key.ts";
import { scalePitchClasses } from "../pitch/key-signature.ts";
import { semitoneOf } from "../pitch/semitone.ts";
import type { Ticks } from "../units/ticks.ts";
import type { OpenRest } from "./chanter-state.ts";
import { divided, type RestSlot } from "./rest-slots.ts";
import { isWritable } from "./written-values.ts";

/** One note of a fill. */
export interface FillNote {
  readonly slot: RestSlot;
  readonly note: PlainNote;
  /** From here to the end of the rest. */
  readonly left: Ticks;
}

/** No note of a fill is shorter, seconds: a quaver of 6/8 at 100 to the minute. A choice of our own. */
const LEAST_SECONDS = 0.2;

/**
 * The notes that lead through the end of a rest to the next note: the plain notes of the key between the two, stepwise, one to a beat; two
 * (in compound time three) where there are more notes than beats and the tempo leaves time. Where there are fewer, the note before is held
 * first. Between neighbours and like notes one note from beside the goal leads back to it, that with the easier finger changes. No two like
 * notes meet. None where the rest stands in a tuplet or its beats cannot be written.
 */
export function restFill(
  rest: OpenRest,
  { from, to }: { readonly from: ChanterNote; readonly to: ChanterNote },
  key: Key,
  setup: PipeSetup,
): readonly FillNote[] {
  const scale = plainNotesIn(key, setup);
  const between = notesBetween(scale, from, to);
  const way = between.length > 0 ? between : besideGoal(scale, from, to, setup);
  const slots = slotsFor(rest, way.length);
  if (!rest.isStraight || way.length === 0 || slots.some(({ ticks }) => !isWritable(ticks, null))) return [];
  const count = Math.min(way.length, slots.length);
  const notes = Array.from(
    { length: count },
    (_, index) => way[Math.round(((index + 1) * (way.length + 1)) / (count + 1)) - 1] as PlainNote,
  );
  const taken = slots.slice(slots.length - count);
  const lefts = taken.map((_, index) => taken.slice(index).reduce((sum, { ticks }) => sum + ticks, 0) as Ticks);
  return notes.map((note, index) => ({ slot: taken[index] as RestSlot, note, left: lefts[index] as Ticks }));
}

/** The beats of a rest, or their parts where the notes are more than the beats and none becomes too short. */
function slotsFor({ slots, ticks, seconds }: OpenRest, notes: number): readonly RestSlot[] {
  if (notes <= slots.length) return slots;
  const parts = divided(slots);
  const least = Math.min(...parts.map((slot) => slot.ticks));
  return (least / ticks) * seconds >= LEAST_SECONDS ? parts : slots;
}

/** The plain notes that lie in a key; all nine where the key is so far off that few do. */
function plainNotesIn(key: Key, setup: PipeSetup): readonly PlainNote[] {
  const classes = scalePitchClasses(key);
  const inKey = NINE_NOTES.filter((note) => classes.includes(semitoneOf(concertPitchOf(setup, note)) % 12));
  return inKey.length * 2 > NINE_NOTES.length ? inKey : NINE_NOTES;
}

const height = (note: ChanterNote): number => CHANTER_NOTES.indexOf(note);

/** The notes strictly between two, in the direction from one to the other. */
function notesBetween(scale: readonly PlainNote[], from: ChanterNote, to: ChanterNote): readonly PlainNote[] {
  const [low, high] = [height(from), height(to)].sort((one, other) => one - other) as [number, number];
  const between = scale.filter((note) => height(note) > low && height(note) < high);
  return height(from) < height(to) ? between : between.toReversed();
}

/** The scale's note just over the goal or just under it. */
function besideGoal(scale: readonly PlainNote[], from: ChanterNote, to: ChanterNote, setup: PipeSetup): readonly PlainNote[] {
  const beside = [scale.find((note) => height(note) > height(to)), scale.findLast((note) => height(note) < height(to))];
  const care = (note: PlainNote): number => crossingOf(setup, from, note, []).share + crossingOf(setup, note, to, []).share;
  const fitting = beside.filter((note): note is PlainNote => note !== undefined && note !== from);
  return fitting.sort((one, other) => care(one) - care(other)).slice(0, 1);
}
