import { noteName } from "../pipes/note-names.ts";
import type { FitChange, FitChoice } from "./fit-choice.ts";

/** Written semitones of the lowest and the highest chanter note. */
const [LOWEST, HIGHEST] = [67, 81];

/** What was done to a note and why, a sentence; empty where nothing was done. */
export function changeWords(change: FitChange | null, { note, wanted }: FitChoice, octave: number): string {
  const name = note === null ? "" : noteName(note);
  const moved = octave === 0 || change === "octave" ? "" : ` Its phrase lies ${octaveWords(octave)}.`;
  switch (change) {
    case null:
      return "";
    case "octave":
      return `Its phrase lies ${octaveWords(octave)}, where the chanter has more of it.`;
    case "chord-note":
      return `${trouble(wanted)}: ${name}, a note of the chord.${moved}`;
    case "neighbour":
      return `${trouble(wanted)}: ${name}, the note beside it.${moved}`;
    case "flat-seventh":
      return `The leading tone does not speak: ${name}, the flat seventh, with its chord.${moved}`;
    case "cross-fingering":
      return `Not one of the nine: ${name}, cross-fingered.${moved}`;
    case "dropped":
      return `${trouble(wanted)}, and its syllable is sung on: ${name} is held.${moved}`;
    case "handed-over":
      return `${trouble(wanted)}, and nothing near it serves: another player has it.`;
  }
}

function octaveWords(octave: number): string {
  const count = Math.abs(octave);
  return `${count === 1 ? "an octave" : `${count} octaves`} ${octave > 0 ? "higher" : "lower"}`;
}

function trouble(wanted: number): string {
  if (wanted < LOWEST) return "Below low G";
  return wanted > HIGHEST ? "Above high A" : "Not on this chanter";
}
