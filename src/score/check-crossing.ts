import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import { crossingOf } from "../pipes/crossing.ts";
import { coverOf, easierFingerings, isEasier } from "../pipes/crossing-cures.ts";
import { crossingSentence } from "../pipes/crossing-words.ts";
import { gracenoteInWords } from "../pipes/gracenote-words.ts";
import { shortNote } from "../pipes/group-time.ts";
import { noteName } from "../pipes/note-names.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import type { BarsBack } from "./chanter-state.ts";
import type { Finding } from "./finding.ts";
import type { LocalFinding, Place } from "./local-finding.ts";

/** A note that another sounds before. */
export interface Step extends BarsBack {
  readonly from: ChanterNote;
  readonly to: ChanterNote;
  readonly gracenotes: readonly PlainNote[];
  /** How long the note lasts at least, seconds. */
  readonly seconds: number;
}

/** A step on which other notes can sound, or null. */
export function crossingFinding(step: Step, setup: PipeSetup): LocalFinding | null {
  const crossing = crossingOf(setup, step.from, step.to, step.gracenotes);
  const message = crossingSentence(step, crossing);
  if (message === null) return null;
  const { barsBack, at } = step;
  return {
    kind: "crossing",
    barsBack,
    at,
    message,
    notes: crossing.notes,
    cures: (place) => [...gracenoteCure(step, setup, place), ...fingeringCures(step, setup, place)],
  };
}

/** A gracenote on a note that has none. */
function gracenoteCure({ from, to, gracenotes, seconds, barsBack, at }: Step, setup: PipeSetup, place: Place): Finding["cures"] {
  const cover = gracenotes.length > 0 ? null : coverOf(setup, from, to);
  if (cover === null || shortNote([cover.gracenote], { note: seconds, before: null }) !== null) return [];
  const name = cover.kind === "strike" ? `a strike to ${noteName(cover.gracenote)}` : gracenoteInWords(cover.gracenote);
  return [{ label: `Cover it with ${name}`, edits: [{ kind: "gracenotes", at: place(barsBack, at), gracenotes: [cover.gracenote] }] }];
}

/** Another fingering of a cross-fingered note at either end, if on this step fewer other notes can sound with it. */
function fingeringCures({ from, to, gracenotes, at }: Step, setup: PipeSetup, place: Place): Finding["cures"] {
  const { line } = place(0, at);
  const now = crossingOf(setup, from, to, gracenotes);
  return easierFingerings(setup)
    .filter(({ note }) => note === from || note === to)
    .map((other) => ({ ...other, crossing: crossingOf(other.setup, from, to, gracenotes) }))
    .filter(({ crossing }) => isEasier(crossing, now) && crossing.notes.length < now.notes.length)
    .map(({ note, holes, setup: edited }) => ({
      label: `Finger ${noteName(note)} ${holes}`,
      edits: [{ kind: "setup", line, setup: edited }],
    }));
}
