import { type ChanterNote, isCrossFingered } from "../pipes/chanter-note.ts";
import { type FingerChange, fingerChange } from "../pipes/finger-change.ts";
import { fingersInWords } from "../pipes/finger-change-words.ts";
import { fingeringTable } from "../pipes/fingering-table.ts";
import { noteName } from "../pipes/note-names.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { shownPitch } from "../pitch/spelling.ts";
import { shownNumber } from "../units/shown.ts";
import type { JudgedNote } from "./judged-note.ts";

/** From here on the ear calls it off, cents. *Source:* Arndt et al., Exp. Brain Res. 238 (2020) 247: about 10 cents for musicians. */
const HEARD = 10;

/** Nearer to a partial than this a note locks to it, cents. By ear. */
const LOCKED = 4;

/** What the chanter plays, in words: `high G, then high G♯, cross-fingered`. */
export function playedInWords(notes: readonly ChanterNote[]): string {
  const words = notes.map((note) => `${noteName(note)}${isCrossFingered(note) ? ", cross-fingered" : ""}`);
  return words.join(", then ");
}

/** What the figures come to, in a sentence or two: what it agrees with, and where it would be smoother. */
export function verdictOf(judged: JudgedNote): string {
  const { offBand, offDrone, curve, beatsWithBand } = judged;
  const locks = offDrone !== null && Math.abs(offDrone.cents) < LOCKED;
  const sentences: string[] = [];
  if (locks) sentences.push("Locks to the drone.");
  else if (Math.abs(offBand) <= HEARD) sentences.push("Sits with the band.");
  const lowest = curve.reduce(
    (best, point) => (point.dissonance < best.dissonance ? point : best),
    curve[0] ?? { cents: 0, dissonance: 0 },
  );
  if (!locks && Math.abs(lowest.cents) > LOCKED && Math.abs(lowest.cents) < 50)
    sentences.push(`${shownNumber(Math.abs(lowest.cents), 0)} cents ${lowest.cents > 0 ? "higher" : "lower"} it is smoothest.`);
  const [fastest] = beatsWithBand.toReversed();
  if (fastest !== undefined && fastest.perSecond > 1 && Math.abs(offBand) > HEARD)
    sentences.push(`Who holds ${shownPitch(fastest.with)} beats against it.`);
  return sentences.length === 0 ? "Neither locks nor clashes." : sentences.join(" ");
}

/** How the fingers get from one note to another: `from F: thumb lifts, three fingers close`; nothing to say after silence. */
export function wayInWords(setup: PipeSetup, from: ChanterNote | null, to: ChanterNote): string {
  if (from === null) return "after silence";
  if (from === to) return "the same note";
  const table = fingeringTable(setup);
  const change: FingerChange = fingerChange(table[from], table[to], table);
  const passing = change.passing.map(({ note }) => noteName(note));
  return `${fingersInWords(change)}${passing.length === 0 ? "" : `; ${passing.join(", ")} may sound`}`;
}

/** A number with its sign, as it stands in a column of figures: `+2`, `−31`, `0`. */
export function signed(value: number): string {
  const shown = shownNumber(value, 0);
  return Math.round(value) > 0 ? `+${shown}` : shown;
}
