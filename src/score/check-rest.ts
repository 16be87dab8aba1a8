import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import { noteName } from "../pipes/note-names.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { concertPitchOf } from "../pipes/sounding.ts";
import { chordPitchClasses } from "../pitch/chord.ts";
import { semitoneOf } from "../pitch/semitone.ts";
import type { Ticks } from "../units/ticks.ts";
import type { LastNote, OpenRest } from "./chanter-state.ts";
import { dividingGracenote } from "./dividing-gracenote.ts";
import type { Edit } from "./edit.ts";
import type { Finding } from "./finding.ts";
import type { Frame } from "./frame.ts";
import type { LocalFinding, Place } from "./local-finding.ts";
import { restFill } from "./rest-fill.ts";

/** A silence this long is better cut off than held, seconds. *Source:* about 2 s or a bar: common practice. */
const LONG_SILENCE = 2;

/** Notes of the chanter that sink into the drones and so read as a rest. *Source:* published, piping glossaries. */
const DRONE_NOTES = ["low-a", "e", "high-a"] as const satisfies readonly PlainNote[];

/** The note after a rest, in the bar that is looked at. */
export interface NextNote {
  readonly at: Ticks;
  readonly note: ChanterNote;
  /** Whether gracenotes lead into it already. */
  readonly isGraced: boolean;
}

/** What a rest stands between. */
export interface RestPlace {
  readonly last: LastNote;
  readonly rest: OpenRest;
  /** Null where playing goes back and no note follows as written. */
  readonly next: NextNote | null;
  /** The frame of the bar that is looked at, where the rest ends. */
  readonly frame: Frame;
  readonly setup: PipeSetup;
}

type Cure = Finding["cures"][number];

/** A rest the chanter cannot make, with what a piper does instead: hold, sink into the drones, fill, or cut off; cut off first where it is long. */
export function restFinding(place: RestPlace): LocalFinding {
  const { last, rest } = place;
  const name = noteName(last.note);
  const isLong = rest.seconds >= LONG_SILENCE || rest.fillsBar;
  return {
    kind: "rest",
    barsBack: rest.barsBack,
    at: rest.at,
    message: `The chanter cannot rest here. ${isLong ? `Mark a cut-off, or hold ${name}.` : `Hold ${name}, or mark a cut-off.`}`,
    cures: (at) => {
      const cutOff: Cure = { label: "Mark a cut-off", edits: [{ kind: "cut-off", at: at(last.barsBack, last.at), on: true }] };
      const others = [holdCure(place, at), droneCure(place, at), fillCure(place, at)].flatMap((cure) => cure ?? []);
      return isLong ? [cutOff, ...others] : [...others, cutOff];
    },
  };
}

function holdCure(place: RestPlace, at: Place): Cure {
  const { last, rest, next } = place;
  const label = `Hold ${noteName(last.note)}`;
  // Where no note follows as written, holding would end with the bar, and the rest may go on.
  if (next === null) return { label, edits: [putOver(rest, last.note, at), { kind: "tie", at: at(last.barsBack, last.at), tied: true }] };
  const hold = { kind: "hold", at: at(rest.barsBack, rest.at) } as const;
  return { label, edits: [hold, ...divisions(place, last.note, at)] };
}

/** A note all through a rest. */
function putOver({ barsBack, at: from, ticks }: OpenRest, note: ChanterNote, at: Place): Edit {
  return { kind: "place", at: at(barsBack, from), ticks, tuplet: null, content: { kind: "pipes", note } };
}

/** Low A, E or high A: one of the chord, unlike its neighbours and near the note before. */
function droneCure(place: RestPlace, at: Place): Cure {
  const { last, rest, next, setup } = place;
  const tones = rest.chord === null ? [] : (chordPitchClasses(rest.chord) ?? []);
  const rank = (note: PlainNote): readonly number[] => [
    tones.includes(semitoneOf(concertPitchOf(setup, note)) % 12) ? 0 : 1,
    note === next?.note ? 1 : 0,
    Math.abs(semitoneOf(concertPitchOf(setup, note)) - semitoneOf(concertPitchOf(setup, last.note))),
  ];
  const [drone] = DRONE_NOTES.filter((note) => note !== last.note).sort((one, other) => inOrder(rank(one), rank(other)));
  const note = drone as PlainNote;
  return { label: `Drone note ${noteName(note)}`, edits: [putOver(rest, note, at), ...divisions(place, note, at)] };
}

/** A run of plain notes that leads to the next; the first beats are held where the run is shorter than the rest. */
function fillCure({ last, rest, next, frame, setup }: RestPlace, at: Place): Cure | null {
  if (next === null) return null;
  const run = restFill(rest, { from: last.note, to: next.note }, frame.key, setup);
  const [first] = run;
  if (first === undefined) return null;
  const isHeld = first.slot.barsBack !== rest.barsBack || first.slot.at !== rest.at;
  const hold = { kind: "hold", at: at(rest.barsBack, rest.at) } as const;
  // Each note goes over all that is left of the rest, and the next over its end: so no rest is ever cut, only notes.
  const notes = run.map(
    ({ slot, note, left }): Edit => ({
      kind: "place",
      at: at(slot.barsBack, slot.at),
      ticks: left,
      tuplet: null,
      content: { kind: "pipes", note },
    }),
  );
  const edits = isHeld ? [hold, ...notes] : notes;
  return { label: `Fill with ${run.map(({ note }) => noteName(note)).join(", ")}`, edits };
}

/** What divides the next note from a like one that now comes right before it. */
function divisions({ next, setup }: RestPlace, before: ChanterNote, at: Place): readonly Edit[] {
  if (next === null || next.note !== before || next.isGraced) return [];
  const dividing = dividingGracenote(setup, next.note);
  return dividing === null ? [] : [{ kind: "gracenotes", at: at(0, next.at), gracenotes: [dividing.gracenote] }];
}

function inOrder(one: readonly number[], other: readonly number[]): number {
  const place = one.findIndex((value, index) => value !== other[index]);
  return place === -1 ? 0 : (one[place] as number) - (other[place] as number);
}
