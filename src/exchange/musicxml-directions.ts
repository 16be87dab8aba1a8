import { shownPitch } from "../pitch/spelling.ts";
import type { Section, Tempo, Tune } from "../score/frame.ts";
import type { PipeLine, Score } from "../score/score.ts";
import { rounded, shownHertz } from "../units/shown.ts";
import { TICKS_PER_QUARTER } from "../units/ticks.ts";
import { element, elementWith, type XmlElement } from "./xml.ts";

/** The name of a note value by its ticks; a dotted one has half as many again. */
const BEAT_UNITS: Readonly<Record<number, string>> = {
  3840: "whole",
  1920: "half",
  960: "quarter",
  480: "eighth",
  240: "16th",
  120: "32nd",
};

/** A tempo mark: the printed one, and what a player of the file goes by (always quarters a minute). */
export function tempoDirection({ beat, perMinute }: Tempo): XmlElement {
  const quarters = rounded((perMinute * beat) / TICKS_PER_QUARTER, 4);
  return elementWith(
    "direction",
    { placement: "above", directive: "yes" },
    element("direction-type", tempoMark(beat, perMinute)),
    elementWith("sound", { tempo: String(quarters) }),
  );
}

/** A beat that is no single value is said in words. */
function tempoMark(beat: number, perMinute: number): XmlElement {
  const shown = String(rounded(perMinute, 2));
  const plain = BEAT_UNITS[beat];
  if (plain !== undefined) return element("metronome", element("beat-unit", plain), element("per-minute", shown));
  const dotted = BEAT_UNITS[(beat * 2) / 3];
  if (dotted !== undefined)
    return element("metronome", element("beat-unit", dotted), element("beat-unit-dot"), element("per-minute", shown));
  return element("words", `quarter = ${rounded((perMinute * beat) / TICKS_PER_QUARTER, 2)}`);
}

/** A section's letter and name at its first bar. */
export function sectionDirection({ letter, name }: Section): XmlElement | null {
  const kinds = [
    letter === "" ? null : element("direction-type", element("rehearsal", letter)),
    name === "" ? null : element("direction-type", elementWith("words", { "font-weight": "bold" }, name)),
  ].filter((kind) => kind !== null);
  return kinds.length === 0 ? null : elementWith("direction", { placement: "above" }, ...kinds);
}

/** A tune's heading at its first bar: title, type and composer as words, since a file has one title. */
export function tuneDirection({ title, tuneType, composer }: Tune): XmlElement {
  const said = [tuneType, composer].filter((text) => text !== "").join(", ");
  return elementWith(
    "direction",
    { placement: "above" },
    element("direction-type", elementWith("words", { "font-weight": "bold", "font-size": "large" }, title)),
    said === "" ? null : element("direction-type", elementWith("words", { "font-style": "italic" }, said)),
  );
}

/** Words in italics, as those where the chanter starts and stops. */
export function wordsDirection(words: string, placement: "above" | "below"): XmlElement {
  return elementWith("direction", { placement }, element("direction-type", elementWith("words", { "font-style": "italic" }, words)));
}

/** What to tune to, as words at the head of the part: the format has no element for a reference pitch. */
export function referenceWords(score: Score, line: PipeLine | null): string {
  const band = `band at A ${shownHertz(score.bandA, 2)}`;
  if (line === null) return band.replace("band", "Band");
  return `Low A at ${shownHertz(line.setup.lowA, 2)} (${shownPitch(line.setup.lowAIs)}), ${band}`;
}
