import type { Key } from "../pitch/key.ts";
import { pitchClassShown } from "../pitch/spelling.ts";
import { listed } from "../units/listed.ts";
import { CROSS_FINGERED_NOTES, type CrossFingeredNote } from "./chanter-note.ts";
import { soundingDrones } from "./drones.ts";
import { leadingToneOf } from "./leading-tone.ts";
import { isSmallpipes } from "./low-a.ts";
import { noteName } from "./note-names.ts";
import type { Drone, PipeSetup } from "./pipe-setup.ts";
import { SCALES } from "./scales.ts";
import { speaks } from "./sounding.ts";

/** What is in the stock, by what the piper calls its low A: `B♭ chanter`, `B♭ smallpipes`. */
export function chanterWords(setup: PipeSetup): string {
  return `${pitchClassShown(setup.lowAIs)} ${isSmallpipes(setup) ? "smallpipes" : "chanter"}`;
}

/** How the chanter is tuned: `septimal`, `1954`, `as you measured it`. */
export function scaleWords({ scale }: PipeSetup): string {
  return scale.kind === "measured" ? "as you measured it" : SCALES[scale.name].name;
}

/** What speaks and what does not, as the two ends of a sentence. */
export interface CrossFingeringWords {
  /** The beginning, which names what speaks: `High G♯`, `The leading tone`, `No cross-fingering`. */
  readonly subject: string;
  /** The rest, without its full stop: ` speaks; C and F natural do not`. */
  readonly rest: string;
}

/**
 * Which cross-fingerings speak, in words. Where the key in force has one of them for its leading tone it is called that.
 * @param key at concert pitch, or null where no music is at hand
 */
export function crossFingeringWords(setup: PipeSetup, key: Key | null): CrossFingeringWords {
  const leading = key === null ? null : leadingToneOf(setup, key);
  const special = leading?.kind === "cross-fingered" ? leading.note : null;
  // The leading tone goes first, since that is what the sentence is looked up for.
  const inOrder = [...CROSS_FINGERED_NOTES].sort((a, b) => Number(b === special) - Number(a === special));
  const nameOf = (note: CrossFingeredNote) => (note === special ? "the leading tone" : noteName(note));
  const speaking = inOrder.filter((note) => speaks(setup, note)).map(nameOf);
  const silent = inOrder.filter((note) => !speaks(setup, note)).map(nameOf);
  if (speaking.length === 0) return { subject: "No cross-fingering", rest: " speaks" };
  const verb = speaking.length === 1 ? " speaks" : " speak";
  const rest = silent.length === 0 ? verb : `${verb}; ${withOneNatural(silent)} ${silent.length === 1 ? "does" : "do"} not`;
  return { subject: capitalised(withOneNatural(speaking)), rest };
}

/** Which drones sound, lowest last: `two tenors and a bass`; `none`. */
export function droneWords(setup: PipeSetup): string {
  const names = soundingDrones(setup)
    .map(({ name }) => name)
    .reverse();
  const counts = new Map<Drone["name"], number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  const words = [...counts].map(([name, count]) =>
    count === 1 ? `a ${name}` : `${NUMBERS[count] ?? count} ${name === "bass" ? "basses" : `${name}s`}`,
  );
  return words.length === 0 ? "none" : listed(words);
}

const NUMBERS: readonly (string | undefined)[] = [undefined, "one", "two", "three", "four", "five"];

/** `C and F natural`, `C natural and high G♯`: the word natural once where it is the last of both. */
function withOneNatural(names: readonly string[]): string {
  const both = names.indexOf("F natural");
  const shortened = both > 0 && names[both - 1] === "C natural";
  if (!shortened) return listed(names);
  const rest = names.filter((name) => !name.endsWith(" natural"));
  return rest.length === 0 ? "C and F natural" : listed([...rest, "C natural", "F natural"]);
}

function capitalised(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
