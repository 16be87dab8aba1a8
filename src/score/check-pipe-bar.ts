import { type ChanterNote, type CrossFingeredNote, isCrossFingered, type PlainNote } from "../pipes/chanter-note.ts";
import { asSentence, gracenoteInWords } from "../pipes/gracenote-words.ts";
import { noteName } from "../pipes/note-names.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { withCrossFingering } from "../pipes/setup-changes.ts";
import type { Ticks } from "../units/ticks.ts";
import type { PipeBar, PipeNote } from "./bar.ts";
import { lengthFindings } from "./check-lengths.ts";
import { type DividingGracenote, dividingGracenote } from "./dividing-gracenote.ts";
import type { Frame } from "./frame.ts";
import { type LocalFinding, looseTie } from "./local-finding.ts";
import { placedEvents } from "./placed-events.ts";

/** How the chanter stands at a bar line. */
export interface ChanterState {
  /** The last note before, or null when none was played yet. */
  readonly last: { readonly note: ChanterNote; readonly tied: boolean; readonly barsBack: number; readonly at: Ticks } | null;
  /** The chanter was cut off at the end of that note. */
  readonly isCut: boolean;
  /** There was a rest since that note. */
  readonly rested: boolean;
}

/** Before the first note. */
export const NOT_STARTED: ChanterState = { last: null, isCut: false, rested: false };

/** What was found in a bar of pipes, and how the chanter stands after it. */
export interface CheckedPipeBar {
  readonly findings: readonly LocalFinding[];
  readonly after: ChanterState;
}

/** Looks at one bar of pipes. `goesOn` says whether a note follows anywhere after the bar: rests at the end of a line are not yet written music. */
export function checkPipeBar(bar: PipeBar, frame: Frame, setup: PipeSetup, before: ChanterState, goesOn: boolean): CheckedPipeBar {
  const findings: LocalFinding[] = [...lengthFindings(bar, frame)];
  const events = placedEvents(bar);
  const lastNote = events.findLastIndex((one) => one.event.kind === "note");
  let state = before;
  for (const { at, index, event } of events) {
    if (event.kind === "rest") {
      if (state.last?.tied && !state.rested) findings.push(looseTie(state.last.barsBack, state.last.at));
      const soundsOn = state.last !== null && !state.isCut && !state.rested;
      if (soundsOn && !setup.canRest && (goesOn || index < lastNote))
        findings.push(cannotRest(at, state.last as NonNullable<ChanterState["last"]>));
      state = { ...state, rested: true };
      continue;
    }
    findings.push(...noteFindings(event, at, setup, state));
    state = { last: { note: event.note, tied: event.tied, barsBack: 0, at }, isCut: event.cutOff, rested: false };
  }
  return { findings, after: state };
}

function noteFindings(note: PipeNote, at: Ticks, setup: PipeSetup, { last, isCut, rested }: ChanterState): readonly LocalFinding[] {
  const findings: LocalFinding[] = [];
  const touches = last !== null && !rested;
  const isLike = touches && last.note === note.note;
  if (touches && last.tied && !isLike) findings.push(looseTie(last.barsBack, last.at));
  if (!setup.canRest) findings.push(...startFindings(note, at, last !== null, isCut, rested));
  if (isLike && !last.tied && !isCut && !note.strikeIn && note.gracenotes.length === 0)
    findings.push(likeNotes(note.note, at, last, setup));
  if (isCrossFingered(note.note) && !(isLike && last.tied) && !speaks(setup, note.note)) findings.push(doesNotSpeak(note.note, at, setup));
  return findings;
}

/** Whether the chanter starts where it has to, and nowhere else. */
function startFindings(note: PipeNote, at: Ticks, hasPlayed: boolean, isCut: boolean, rested: boolean): readonly LocalFinding[] {
  const strike =
    (on: boolean): LocalFinding["cures"] =>
    (place) => [{ label: on ? "Strike in here" : "Take it away", edits: [{ kind: "strike-in", at: place(0, at), on }] }];
  if (!note.strikeIn && !hasPlayed)
    return [{ kind: "rest", at, message: "Nothing starts the chanter here. Mark a strike-in.", cures: strike(true) }];
  if (!note.strikeIn && isCut) {
    return [{ kind: "rest", at, message: "The chanter was cut off before this note. Mark a strike-in.", cures: strike(true) }];
  }
  if (note.strikeIn && hasPlayed && !isCut && !rested) {
    return [{ kind: "rest", at, message: "The chanter is already sounding here. Take the strike-in away.", cures: strike(false) }];
  }
  return [];
}

function cannotRest(at: Ticks, last: NonNullable<ChanterState["last"]>): LocalFinding {
  const name = noteName(last.note);
  return {
    kind: "rest",
    at,
    message: `The chanter cannot rest here. Hold ${name}, or mark a cut-off.`,
    cures: (place) => [
      { label: `Hold ${name}`, edits: [{ kind: "hold", at: place(0, at) }] },
      { label: "Mark a cut-off", edits: [{ kind: "cut-off", at: place(last.barsBack, last.at), on: true }] },
    ],
  };
}

function likeNotes(note: ChanterNote, at: Ticks, last: NonNullable<ChanterState["last"]>, setup: PipeSetup): LocalFinding {
  const dividing = dividingGracenote(setup, note);
  const cure = dividing === null ? "No gracenote divides them in this setup: tie them." : `${divides(dividing)} divides them.`;
  return {
    kind: "like-notes",
    at,
    message: `Two ${noteName(note)}s with nothing between them sound as one. ${cure}`,
    cures: (place) => [
      ...(dividing === null
        ? []
        : [{ label: "Add it", edits: [{ kind: "gracenotes", at: place(0, at), gracenotes: [dividing.gracenote] } as const] }]),
      { label: "Tie them", edits: [{ kind: "tie", at: place(last.barsBack, last.at), tied: true }] },
    ],
  };
}

function divides({ gracenote, kind }: DividingGracenote): string {
  return kind === "strike" ? `A strike to ${noteName(gracenote)}` : asSentence(gracenoteInWords(gracenote));
}

/** The plain note that lies nearest to a cross-fingered one and is fingered most like it. */
const PLAIN_INSTEAD: Readonly<Record<CrossFingeredNote, PlainNote>> = { "c-natural": "c", "f-natural": "f", "high-g-sharp": "high-g" };

function doesNotSpeak(note: CrossFingeredNote, at: Ticks, setup: PipeSetup): LocalFinding {
  const instead = PLAIN_INSTEAD[note];
  const name = noteName(note);
  return {
    kind: "cross-fingering",
    at,
    message: `${name.charAt(0).toUpperCase()}${name.slice(1)} does not speak in this setup. Play ${noteName(instead)}, or tick it once it speaks.`,
    cures: (place) => [
      { label: `Play ${noteName(instead)}`, edits: [{ kind: "repitch", at: place(0, at), content: { kind: "pipes", note: instead } }] },
      { label: "It speaks", edits: [{ kind: "setup", line: place(0, at).line, setup: withCrossFingering(setup, note, { speaks: true }) }] },
    ],
  };
}

function speaks(setup: PipeSetup, note: CrossFingeredNote): boolean {
  return setup.crossFingerings.some((one) => one.note === note && one.speaks);
}

/** The tie that nothing follows at the end of a line, if there is one. */
export function tieAtEnd(state: ChanterState): LocalFinding | null {
  return state.last?.tied && !state.rested ? looseTie(state.last.barsBack, state.last.at) : null;
}
