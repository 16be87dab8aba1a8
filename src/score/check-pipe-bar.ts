import { isCrossFingered } from "../pipes/chanter-note.ts";
import { shortNote } from "../pipes/group-time.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { speaks } from "../pipes/sounding.ts";
import type { Ticks } from "../units/ticks.ts";
import type { PipeBar, PipeNote, Rest } from "./bar.ts";
import { type ChanterState, type LastNote, NOT_STARTED, type OpenGroup, type OpenRest } from "./chanter-state.ts";
import { crossingFinding } from "./check-crossing.ts";
import { tooFast } from "./check-gracenotes.ts";
import { lengthFindings } from "./check-lengths.ts";
import { doesNotSpeak, likeNotes, likeNotesOverRepeat, startFindings } from "./check-pipe-note.ts";
import { restFinding } from "./check-rest.ts";
import type { ChordSpan } from "./chords-in-force.ts";
import type { Frame } from "./frame.ts";
import { type LocalFinding, looseTie } from "./local-finding.ts";
import { meterTicks } from "./meter.ts";
import { placedEvents } from "./placed-events.ts";
import { slotsWith } from "./rest-slots.ts";

/** What bears on a bar of pipes beside its own notes. */
export interface PipeBarSurroundings {
  readonly frame: Frame;
  /** The chords that hold through it. */
  readonly chords: readonly ChordSpan[];
  readonly setup: PipeSetup;
}

/** What was found in a bar of pipes, and how the chanter stands after it. */
export interface CheckedPipeBar {
  readonly findings: readonly LocalFinding[];
  readonly after: ChanterState;
}

/**
 * Looks at one bar of pipes. What only the next note decides is found there and said of the place it is about: a rest is none until a note
 * follows (rests at the end of a line are not yet written music), and gracenotes have time as long as their note is tied on.
 */
export function checkPipeBar(bar: PipeBar, around: PipeBarSurroundings, before: ChanterState): CheckedPipeBar {
  const findings: LocalFinding[] = [...lengthFindings(bar, around.frame, before.last?.tied === true && !before.rested)];
  let state = before;
  for (const { at, event } of placedEvents(bar)) {
    if (event.kind === "rest") {
      findings.push(...loose(state), ...openGroup(state, around.setup));
      state = afterRest(event, at, around, state);
    } else {
      findings.push(...noteFindings(event, at, around, state));
      state = afterNote(event, at, around, state);
    }
  }
  return { findings, after: state };
}

/** What is found where a line ends: of the tie and the gracenotes that nothing ends. */
export function atLineEnd(state: ChanterState, setup: PipeSetup): readonly LocalFinding[] {
  return [...loose(state), ...openGroup(state, setup)];
}

/** The rest that playing goes back over, if the chanter sounds into it. */
export function restAtJump({ last, rest }: ChanterState, { frame, setup }: PipeBarSurroundings): readonly LocalFinding[] {
  return last === null || rest === null ? [] : [restFinding({ last, rest, next: null, frame, setup })];
}

/**
 * What a bar's first note meets where a repeat leads back to it: a like note, or a crossing. `before` is how the chanter stands at the end of
 * the repeat; a strike-in then stands in sounding music and starts nothing. None where no note begins the bar.
 */
export function findingsAfterRepeat(
  bar: PipeBar,
  { frame, setup }: PipeBarSurroundings,
  before: ChanterState,
  asWritten: ChanterState,
): readonly LocalFinding[] {
  const [first] = bar.events;
  const from = soundingInto(before, setup);
  if (first?.kind !== "note" || from === null || before.last === null) return [];
  // What the bars as written lead in with is found there already.
  if (from === soundingInto(asWritten, setup)) return [];
  const at = 0 as Ticks;
  if (from === first.note && first.gracenotes.length === 0) {
    return [likeNotesOverRepeat(first.note, at, soundingInto(asWritten, setup), setup)];
  }
  const seconds = secondsOf(first, frame);
  const step = { from, to: first.note, gracenotes: first.gracenotes, seconds, barsBack: 0, at };
  const crossing = crossingFinding(step, setup);
  return crossing === null ? [] : [crossing];
}

/** The note that sounds up to the next one; null where the chanter is silent. A rest silences it only where it can rest. */
function soundingInto({ last, isCut, rested }: ChanterState, setup: PipeSetup): LastNote["note"] | null {
  return last === null || isCut || (rested && setup.canRest) ? null : last.note;
}

function noteFindings(note: PipeNote, at: Ticks, { frame, setup }: PipeBarSurroundings, state: ChanterState): readonly LocalFinding[] {
  const { last, isCut, rested, rest } = state;
  const findings: LocalFinding[] = [];
  const touches = last !== null && !rested;
  const isLike = touches && last.note === note.note;
  const goesOn = isLike && last.tied;
  if (!goesOn) findings.push(...openGroup(state, setup));
  if (touches && !isLike) findings.push(...loose(state));
  if (rest !== null && last !== null) {
    const next = { at, note: note.note, isGraced: note.gracenotes.length > 0 };
    findings.push(restFinding({ last, rest, next, frame, setup }));
  }
  if (!setup.canRest) findings.push(...startFindings(note, at, state));
  if (isLike && !last.tied && !isCut && !note.strikeIn && note.gracenotes.length === 0)
    findings.push(likeNotes(note.note, at, last, setup));
  if (isCrossFingered(note.note) && !goesOn && !speaks(setup, note.note)) findings.push(doesNotSpeak(note.note, at, setup));
  if (!goesOn) findings.push(...fingerFindings(note, at, frame, setup, state));
  return findings;
}

/** What the fingers have to do for a note that begins: gracenotes without time, and notes on the way that nobody wrote. */
function fingerFindings(note: PipeNote, at: Ticks, frame: Frame, setup: PipeSetup, state: ChanterState): readonly LocalFinding[] {
  const from = soundingInto(state, setup);
  const { gracenotes } = note;
  const seconds = secondsOf(note, frame);
  // A note that is tied on may yet be long enough.
  const room = { note: note.tied ? Number.POSITIVE_INFINITY : seconds, before: giver(state, setup) };
  const fast = tooFast({ gracenotes, after: from, note: note.note, room, least: seconds, barsBack: 0, at }, setup);
  const step = { to: note.note, gracenotes, seconds, barsBack: 0, at };
  const crossing = from === null ? null : crossingFinding({ ...step, from }, setup);
  return [fast, crossing].filter((one) => one !== null);
}

/** Gracenotes whose note was tied on, found when it ends. */
export function openGroup({ last }: ChanterState, setup: PipeSetup): readonly LocalFinding[] {
  if (last === null || last.group === null) return [];
  const { group, note, seconds } = last;
  const found = tooFast({ ...group, note, room: { note: seconds, before: group.before }, least: seconds }, setup);
  return found === null ? [] : [found];
}

/** The tie that leads nowhere, unless that was said at an earlier rest. */
function loose({ last, rested }: ChanterState): readonly LocalFinding[] {
  return last?.tied && !rested ? [looseTie(last.barsBack, last.at)] : [];
}

function afterNote(note: PipeNote, at: Ticks, { frame, setup }: PipeBarSurroundings, state: ChanterState): ChanterState {
  const { last, rested } = state;
  const lasts = secondsOf(note, frame);
  const goesOn = last !== null && !rested && last.tied && last.note === note.note;
  const seconds = goesOn ? last.seconds + lasts : lasts;
  const group = !note.tied ? null : goesOn ? last.group : groupBegun(note, at, setup, state);
  return {
    last: { note: note.note, tied: note.tied, barsBack: 0, at, seconds, group },
    isCut: note.cutOff,
    rested: false,
    rest: null,
  };
}

/** Gracenotes that only the length of their note can make too fast. */
function groupBegun({ gracenotes }: PipeNote, at: Ticks, setup: PipeSetup, state: ChanterState): OpenGroup | null {
  const before = giver(state, setup);
  if (gracenotes.length === 0 || shortNote(gracenotes, { note: Number.POSITIVE_INFINITY, before }) !== null) return null;
  return { barsBack: 0, at, gracenotes, after: soundingInto(state, setup), before };
}

/** How long the note lasts that gives gracenotes before the beat their time; null after silence. */
function giver(state: ChanterState, setup: PipeSetup): number | null {
  return soundingInto(state, setup) === null ? null : (state.last as LastNote).seconds;
}

function afterRest(event: Rest, at: Ticks, around: PipeBarSurroundings, state: ChanterState): ChanterState {
  const { last, isCut, rested } = state;
  if (last === null) return NOT_STARTED;
  const ended = { ...last, group: null };
  if (isCut || around.setup.canRest || (rested && state.rest === null)) return { ...state, last: ended, rested: true };
  return { ...state, last: ended, rested: true, rest: longerRest(event, at, around, state.rest) };
}

function longerRest(event: Rest, at: Ticks, { frame, chords }: PipeBarSurroundings, rest: OpenRest | null): OpenRest {
  const ticks = ((rest?.ticks ?? 0) + event.ticks) as Ticks;
  return {
    barsBack: rest?.barsBack ?? 0,
    at: rest?.at ?? at,
    ticks,
    seconds: (rest?.seconds ?? 0) + secondsOf(event, frame),
    fillsBar: (rest?.fillsBar ?? false) || ticks >= meterTicks(frame.meter),
    isStraight: (rest?.isStraight ?? true) && event.tuplet === null,
    chord: rest === null ? (chords.find(({ from, to }) => from <= at && at < to)?.symbol ?? null) : rest.chord,
    slots: slotsWith(rest?.slots ?? [], frame, at, at + event.ticks),
  };
}

function secondsOf({ ticks }: { readonly ticks: Ticks }, { tempo }: Frame): number {
  return (ticks / tempo.beat) * (60 / tempo.perMinute);
}
