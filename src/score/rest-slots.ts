import type { Ticks } from "../units/ticks.ts";
import type { Frame } from "./frame.ts";
import { beatsOf, frameTicks, isCompound, meterOffset } from "./meter.ts";

/** A beat of a rest, or what the rest has of it. */
export interface RestSlot {
  readonly barsBack: number;
  /** From the start of its bar. */
  readonly at: Ticks;
  readonly ticks: Ticks;
  /** In how many equal notes the beat may be divided: 2, or 3 in compound time; 1 where it is not a whole beat. */
  readonly parts: 1 | 2 | 3;
}

/** How many beats a fill has at most; what comes before them is held. A choice of our own. */
const MOST_SLOTS = 4;

/** A rest's slots with a stretch of one bar added, the last few only. The stretch begins where the slots end, if there are any. */
export function slotsWith(slots: readonly RestSlot[], frame: Frame, from: number, to: number): readonly RestSlot[] {
  const beats = beatEdges(frame);
  const made = [...slots];
  const edges = [from, ...beats.filter((edge) => edge > from && edge < to), to];
  edges.slice(0, -1).forEach((edge, index) => {
    const end = edges[index + 1] as number;
    const last = made.at(-1);
    const goesOn = last !== undefined && last.barsBack === 0 && last.at + last.ticks === edge && !beats.includes(edge);
    const at = goesOn ? last.at : edge;
    if (goesOn) made.pop();
    const isBeat = beats.some((beat, place) => beat === at && (beats[place + 1] ?? frameTicks(frame)) === end);
    made.push({ barsBack: 0, at: at as Ticks, ticks: (end - at) as Ticks, parts: isBeat ? (isCompound(frame.meter) ? 3 : 2) : 1 });
  });
  return made.slice(-MOST_SLOTS);
}

/** Slots divided, where they are whole beats. */
export function divided(slots: readonly RestSlot[]): readonly RestSlot[] {
  return slots.flatMap((slot) => {
    const part = slot.ticks / slot.parts;
    return Array.from({ length: slot.parts }, (_, index): RestSlot => {
      const at = (slot.at + index * part) as Ticks;
      return { ...slot, at, ticks: part as Ticks, parts: 1 };
    });
  });
}

/** Where the beats of a frame begin. */
function beatEdges(frame: Frame): readonly number[] {
  let edge: number = -meterOffset(frame);
  return beatsOf(frame.meter).flatMap((beat) => {
    const here = edge;
    edge += beat;
    return here >= 0 ? [here] : [];
  });
}
