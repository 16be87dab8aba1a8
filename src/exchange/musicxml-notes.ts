import type { ChanterNote } from "../pipes/chanter-note.ts";
import { HOLE_NAMES, type Hole, parseHoles } from "../pipes/fingerings.ts";
import type { Holes, PipeSetup } from "../pipes/pipe-setup.ts";
import { centsOffBand } from "../pipes/sounding.ts";
import type { Spelling } from "../pitch/concert-pitch.ts";
import type { Tuplet } from "../score/bar.ts";
import type { WrittenValue } from "../score/written-values.ts";
import type { Hertz } from "../units/hertz.ts";
import { rounded } from "../units/shown.ts";
import type { BeamStep } from "./musicxml-beams.ts";
import type { Sign } from "./musicxml-signs.ts";
import { element, elementWith, type XmlChild, type XmlElement } from "./xml.ts";

/** Note values as the format names them. */
export const NOTE_TYPES: Readonly<Record<WrittenValue["base"], string>> = {
  1: "whole",
  2: "half",
  4: "quarter",
  8: "eighth",
  16: "16th",
  32: "32nd",
};

/** The octaves the format can say. */
const OCTAVES = { lowest: 0, highest: 9 } as const;

/** What a sign needs besides itself. */
export interface NoteDressing {
  /** Null where there is no stem. */
  readonly stem: "up" | "down" | null;
  readonly beams: readonly BeamStep[];
  /** Whether the tuplet's figure has a bracket: where no beam holds it together. */
  readonly bracket: boolean;
  readonly lyrics: readonly XmlElement[];
}

/** The pipes' own additions to a note; null for everyone else. */
export interface ChanterDressing {
  readonly note: ChanterNote;
  readonly setup: PipeSetup;
  readonly bandA: Hertz;
}

/** The elements of one sign: a rest, a note, or a chord's notes one after the other. */
export function noteElements(sign: Sign, dressing: NoteDressing, chanter: ChanterDressing | null): readonly XmlElement[] {
  if (sign.heads.length === 0) return [restElement(sign, dressing)];
  return sign.heads.map(({ spelling, accidental }, index) =>
    element(
      "note",
      index === 0 ? null : element("chord"),
      pitchElement(spelling),
      element("duration", sign.value.ticks),
      sign.tiedFrom ? elementWith("tie", { type: "stop" }) : null,
      sign.tiedTo ? elementWith("tie", { type: "start" }) : null,
      element("voice", "1"),
      ...valueElements(sign.value, accidentalName(accidental)),
      dressing.stem === null ? null : element("stem", dressing.stem),
      ...(index === 0 ? beamElements(dressing.beams) : []),
      notations(sign, dressing, index === 0),
      ...(index === 0 ? dressing.lyrics : []),
      chanter === null ? null : centsElement(chanter),
    ),
  );
}

/** What fills a bar has no note value of its own. */
function restElement(sign: Sign, dressing: NoteDressing): XmlElement {
  return element(
    "note",
    elementWith("rest", sign.wholeBar ? { measure: "yes" } : {}),
    element("duration", sign.value.ticks),
    element("voice", "1"),
    ...(sign.wholeBar ? [] : valueElements(sign.value, null)),
    notations(sign, dressing, true),
  );
}

/** A pitch as it is read. Beyond the octaves the format knows it is given in the nearest one it does: nobody hears the difference down there. */
export function pitchElement({ letter, alter, octave }: Spelling): XmlElement {
  const sayable = Math.min(OCTAVES.highest, Math.max(OCTAVES.lowest, octave));
  return element("pitch", element("step", letter), alter === 0 ? null : element("alter", alter), element("octave", sayable));
}

/** Type, dots, accidental and tuplet, in the format's order. */
function valueElements({ base, dots, tuplet }: WrittenValue, accidental: string | null): readonly XmlChild[] {
  return [
    element("type", NOTE_TYPES[base]),
    dots === 1 ? element("dot") : null,
    accidental === null ? null : element("accidental", accidental),
    tuplet === null ? null : timeModification(tuplet),
  ];
}

/** Accidentals from a double flat up, as the format names them. */
const ACCIDENTALS = ["flat-flat", "flat", "natural", "sharp", "double-sharp"] as const;

function accidentalName(alter: number | null): string | null {
  return alter === null ? null : (ACCIDENTALS[alter + 2] ?? null);
}

function timeModification(tuplet: Exclude<Tuplet, null>): XmlElement {
  return element("time-modification", element("actual-notes", tuplet), element("normal-notes", tuplet === 3 ? 2 : 3));
}

/** The beams at a note, the outermost first. */
export function beamElements(beams: readonly BeamStep[]): readonly XmlElement[] {
  return beams.map((step, index) => elementWith("beam", { number: String(index + 1) }, step));
}

function notations(sign: Sign, { bracket }: NoteDressing, isLowest: boolean): XmlElement | null {
  const marks = [
    sign.tiedFrom ? elementWith("tied", { type: "stop" }) : null,
    sign.tiedTo ? elementWith("tied", { type: "start" }) : null,
    isLowest && sign.opensTuplet ? elementWith("tuplet", { type: "start", bracket: bracket ? "yes" : "no" }) : null,
    isLowest && sign.closesTuplet ? elementWith("tuplet", { type: "stop" }) : null,
    sign.holes === null ? null : fingering(sign.holes),
  ].filter((mark) => mark !== null);
  return marks.length === 0 ? null : element("notations", ...marks);
}

const CLOSED: Readonly<Record<Hole, string>> = { closed: "yes", open: "no", half: "half" };

/** The holes of a cross-fingered note, thumb first. */
function fingering(text: Holes): XmlElement {
  const holes = parseHoles(text).map((hole, index) =>
    elementWith("hole", { placement: "above" }, element("hole-type", HOLE_NAMES[index] as string), element("hole-closed", CLOSED[hole])),
  );
  return element("technical", ...holes);
}

/** How far the note sounds off the band's equal temperament; pitches themselves stay whole semitones, or few readers would take them. */
function centsElement({ note, setup, bandA }: ChanterDressing): XmlElement | null {
  const off = rounded(centsOffBand(setup, note, bandA), 1);
  return off === 0 ? null : element("play", elementWith("other-play", { type: "cents" }, String(off)));
}
