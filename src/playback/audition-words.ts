import { type ChanterNote, isCrossFingered } from "../pipes/chanter-note.ts";
import { type FingerChange, fingerChange } from "../pipes/finger-change.ts";
import { fingersInWords } from "../pipes/finger-change-words.ts";
import { fingeringTable } from "../pipes/fingering-table.ts";
import { noteName } from "../pipes/note-names.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { shownPitch } from "../pitch/spelling.ts";
import { shownCents, shownNumber } from "../units/shown.ts";
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
  const { offBand, offDrone, curve, beatsWithBand, inBand } = judged;
  const locks = offDrone !== null && Math.abs(offDrone.cents) < LOCKED;
  const sentences: string[] = [];
  if (locks) sentences.push("Locks to the drone.");
  else if (inBand && Math.abs(offBand) <= HEARD) sentences.push("Sits with the band.");
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

/** How far off the drone's nearest partial: `+2 from the bass’s 7th`, `0 from the tenor itself`. */
export function offDroneInWords({ offDrone }: JudgedNote): string {
  if (offDrone === null) return "no drone sounds";
  const { drone, partial, cents } = offDrone;
  return `${shownCents(cents)} from the ${partial === 1 ? `${drone} itself` : `${drone}’s ${ordinal(partial)}`}`;
}

/** How often it beats with what the band sounds, slowest first: `2.9 on F♯4, 15.7 on A5`. */
export function beatsWithBandInWords({ beatsWithBand }: JudgedNote): string {
  return beatsInWords(beatsWithBand.map((beat) => ({ ...beat, on: shownPitch(beat.with) })));
}

/** How often it beats with the drones: `0.7 on the bass`. */
export function beatsWithDronesInWords({ beatsWithDrones }: JudgedNote): string {
  return beatsInWords(beatsWithDrones.map((beat) => ({ ...beat, on: `the ${beat.with}` })));
}

/** `1st`, `2nd`, `3rd`, `4th`, `11th`, `21st`. */
export function ordinal(place: number): string {
  const [tens, ones] = [place % 100, place % 10];
  const ending = tens >= 11 && tens <= 13 ? "th" : (["th", "st", "nd", "rd"][ones] ?? "th");
  return `${place}${ending}`;
}

/** Slower than this a note ends before it has beaten, hertz: once in twenty seconds. */
const STANDS = 0.05;

/** More beats at once than these nobody follows; the slowest are told. */
const TOLD = 3;

function beatsInWords(beats: readonly { readonly perSecond: number; readonly on: string }[]): string {
  const heard = beats.filter(({ perSecond }) => perSecond > STANDS).slice(0, TOLD);
  if (heard.length > 0) return heard.map(({ perSecond, on }) => `${shownNumber(perSecond, 1)} on ${on}`).join(", ");
  return beats.length > 0 ? "none: in tune" : "none slow enough to count";
}
