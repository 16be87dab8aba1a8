import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import type { Ticks } from "../units/ticks.ts";
import type { RestSlot } from "./rest-slots.ts";

/** A moment some bars before the one that is looked at. */
export interface BarsBack {
  /** 0: in this bar. */
  readonly barsBack: number;
  /** From the start of its bar. */
  readonly at: Ticks;
}

/** Gracenotes whose note is tied on and was too short for them so far. */
export interface OpenGroup extends BarsBack {
  readonly gracenotes: readonly PlainNote[];
  /** What sounds before them; null after silence. */
  readonly after: ChanterNote | null;
  /** How long that lasts, seconds. */
  readonly before: number | null;
}

/** The note played last: its last written event, and how long it lasts so far with all that is tied to it. */
export interface LastNote extends BarsBack {
  readonly note: ChanterNote;
  readonly tied: boolean;
  readonly seconds: number;
  readonly group: OpenGroup | null;
}

/** A rest that the chanter sounds through, so far. */
export interface OpenRest extends BarsBack {
  readonly ticks: Ticks;
  readonly seconds: number;
  /** Whether it has come to a whole bar. */
  readonly fillsBar: boolean;
  /** No part of it stands in a tuplet. */
  readonly isStraight: boolean;
  /** The chord in force where it begins, at concert pitch; null for none. */
  readonly chord: string | null;
  /** Its last beats, at most as many as a fill has. */
  readonly slots: readonly RestSlot[];
}

/** How the chanter stands at a bar line. */
export interface ChanterState {
  /** The last note before, or null when none was played yet. */
  readonly last: LastNote | null;
  /** The chanter was cut off at the end of that note. */
  readonly isCut: boolean;
  /** There was a rest since that note. */
  readonly rested: boolean;
  /** That rest, where the chanter cannot make it. */
  readonly rest: OpenRest | null;
}

/** Before the first note. */
export const NOT_STARTED: ChanterState = { last: null, isCut: false, rested: false, rest: null };

/** A state as it is so many bars later. */
export function barsOn(state: ChanterState, bars: number): ChanterState {
  const { last, rest } = state;
  if (last === null || bars === 0) return state;
  const on = <Place extends BarsBack>(place: Place): Place => ({ ...place, barsBack: place.barsBack + bars });
  return {
    ...state,
    last: { ...on(last), group: last.group === null ? null : on(last.group) },
    rest: rest === null ? null : { ...on(rest), slots: rest.slots.map(on) },
  };
}

/** Whether a state is another one so many bars later. */
export function sameState(one: ChanterState, other: ChanterState, bars: number): boolean {
  return (
    one.isCut === other.isCut &&
    one.rested === other.rested &&
    sameLast(one.last, other.last, bars) &&
    sameGroup(one.last?.group ?? null, other.last?.group ?? null, bars) &&
    sameRest(one.rest, other.rest, bars)
  );
}

function samePlace(one: BarsBack, other: BarsBack, bars: number): boolean {
  return one.barsBack === other.barsBack + bars && one.at === other.at;
}

function sameLast(one: LastNote | null, other: LastNote | null, bars: number): boolean {
  if (one === null || other === null) return one === other;
  return one.note === other.note && one.tied === other.tied && one.seconds === other.seconds && samePlace(one, other, bars);
}

function sameGroup(one: OpenGroup | null, other: OpenGroup | null, bars: number): boolean {
  if (one === null || other === null) return one === other;
  return one.gracenotes === other.gracenotes && one.after === other.after && one.before === other.before && samePlace(one, other, bars);
}

function sameRest(one: OpenRest | null, other: OpenRest | null, bars: number): boolean {
  if (one === null || other === null) return one === other;
  return (
    one.ticks === other.ticks &&
    one.seconds === other.seconds &&
    one.fillsBar === other.fillsBar &&
    one.isStraight === other.isStraight &&
    one.chord === other.chord &&
    samePlace(one, other, bars) &&
    one.slots.length === other.slots.length &&
    one.slots.every((slot, index) => {
      const match = other.slots[index] as RestSlot;
      return slot.ticks === match.ticks && slot.parts === match.parts && samePlace(slot, match, bars);
    })
  );
}
