import { beamCount } from "../engraving/stems.ts";
import type { PlainNote } from "../pipes/chanter-note.ts";
import { writtenSpellingOf } from "../pipes/written-pitch.ts";
import { gracenoteLength, USUAL_GRACENOTES } from "../playback/gracenote-time.ts";
import type { Tempo } from "../score/frame.ts";
import { rounded } from "../units/shown.ts";
import type { Ticks } from "../units/ticks.ts";
import type { BeamStep } from "./musicxml-beams.ts";
import { beamElements, NOTE_TYPES, pitchElement } from "./musicxml-notes.ts";
import { element, elementWith, type XmlElement } from "./xml.ts";

/** Gracenotes are printed as 32nds, stems up, unslashed. *Source:* ABC standard 2.1, 3.1.14; common practice. */
const BASE = 32;

/** The notes that may give gracenotes their time. */
export interface Neighbours {
  readonly tempo: Tempo;
  /** How long the note after them lasts. */
  readonly after: Ticks;
  /** How long the note before them lasts; null after a rest and at the start of a bar. */
  readonly before: Ticks | null;
}

/** The gracenotes of one note, in order, beamed together where there are several; each says how much of a neighbour's time it takes. */
export function gracenoteElements(gracenotes: readonly PlainNote[], neighbours: Neighbours): readonly XmlElement[] {
  const theft = stolenTime(gracenotes, neighbours);
  return gracenotes.map((note, index) => {
    const step: BeamStep = index === 0 ? "begin" : index === gracenotes.length - 1 ? "end" : "continue";
    return element(
      "note",
      elementWith("grace", { ...theft, slash: "no" }),
      pitchElement(writtenSpellingOf(note)),
      element("voice", "1"),
      element("type", NOTE_TYPES[BASE]),
      element("stem", "up"),
      ...(gracenotes.length > 1 ? beamElements(Array.from({ length: beamCount({ value: { base: BASE } }) }, () => step)) : []),
    );
  });
}

/** What one gracenote takes, in percent of the note that gives it: the same time as when the sketch is played. */
function stolenTime(gracenotes: readonly PlainNote[], { tempo, after, before }: Neighbours): Readonly<Record<string, string>> {
  const fromBefore = before !== null && USUAL_GRACENOTES.placementOf(gracenotes) === "before-beat";
  const room = ((fromBefore ? before : after) / tempo.beat) * (60 / tempo.perMinute);
  const percent = rounded((100 * gracenoteLength(gracenotes.length, room, USUAL_GRACENOTES)) / room, 1);
  return { [fromBefore ? "steal-time-previous" : "steal-time-following"]: String(percent) };
}
