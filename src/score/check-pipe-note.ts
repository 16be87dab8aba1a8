import type { ChanterNote, CrossFingeredNote, PlainNote } from "../pipes/chanter-note.ts";
import { asSentence, gracenoteInWords } from "../pipes/gracenote-words.ts";
import { noteName } from "../pipes/note-names.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { withCrossFingering } from "../pipes/setup-changes.ts";
import type { Ticks } from "../units/ticks.ts";
import type { PipeNote } from "./bar.ts";
import type { ChanterState, LastNote } from "./chanter-state.ts";
import { type DividingGracenote, dividingGracenote } from "./dividing-gracenote.ts";
import type { LocalFinding } from "./local-finding.ts";

/** Whether the chanter starts where it has to, and nowhere else. */
export function startFindings(note: PipeNote, at: Ticks, { last, isCut, rested }: ChanterState): readonly LocalFinding[] {
  const hasPlayed = last !== null;
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

/** Two like notes that nothing divides; the second is at a moment of this bar. */
export function likeNotes(note: ChanterNote, at: Ticks, last: LastNote, setup: PipeSetup): LocalFinding {
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

/**
 * The same where a repeat leads back: nothing can be tied, and the gracenote has to be fingered after what comes before the first time too.
 * @param written the note that sounds into it as written; null after silence
 */
export function likeNotesOverRepeat(note: ChanterNote, at: Ticks, written: ChanterNote | null, setup: PipeSetup): LocalFinding {
  const dividing = dividingGracenote(setup, note, [written]);
  const cure = dividing === null ? "Strike in anew, or end on another note." : `${divides(dividing)} divides them.`;
  return {
    kind: "like-notes",
    at,
    message: `Where the repeat goes back, two ${noteName(note)}s with nothing between them sound as one. ${cure}`,
    cures: (place) =>
      dividing === null ? [] : [{ label: "Add it", edits: [{ kind: "gracenotes", at: place(0, at), gracenotes: [dividing.gracenote] }] }],
  };
}

function divides({ gracenote, kind }: DividingGracenote): string {
  return kind === "strike" ? `A strike to ${noteName(gracenote)}` : asSentence(gracenoteInWords(gracenote));
}

/** The plain note that lies nearest to a cross-fingered one and is fingered most like it. */
const PLAIN_INSTEAD: Readonly<Record<CrossFingeredNote, PlainNote>> = { "c-natural": "c", "f-natural": "f", "high-g-sharp": "high-g" };

/** A cross-fingered note that is not ticked. */
export function doesNotSpeak(note: CrossFingeredNote, at: Ticks, setup: PipeSetup): LocalFinding {
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
