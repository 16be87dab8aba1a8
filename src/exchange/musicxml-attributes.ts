import { writtenKey } from "../engraving/part-facts.ts";
import type { Clef } from "../ensemble/player.ts";
import type { Key } from "../pitch/key.ts";
import { fifthsOf } from "../pitch/key-signature.ts";
import type { Transposition } from "../pitch/transpose.ts";
import { TICKS_PER_QUARTER } from "../units/ticks.ts";
import { type Part, partClef, partTransposition } from "./musicxml-part.ts";
import { element, elementWith, type XmlElement } from "./xml.ts";

/** Each clef's sign and the staff line it stands on, counted from below. */
const CLEFS: Readonly<Record<Clef, readonly [sign: string, line: number]>> = { treble: ["G", 2], alto: ["C", 3], bass: ["F", 4] };

/**
 * What a bar says of key, meter and transposition where it differs from the bar before; all of it, and the clef, in the first; and how many silent
 * bars are read as one rest from here. Null where there is nothing to say.
 */
export function attributesElement(part: Part, bar: number): XmlElement | null {
  const [before, here] = [bar === 0 ? null : readingAt(part, bar - 1), readingAt(part, bar)];
  const changed = <Value>(pick: (reading: Reading) => Value): boolean =>
    before === null || JSON.stringify(pick(before)) !== JSON.stringify(pick(here));
  const children = [
    before === null ? element("divisions", TICKS_PER_QUARTER) : null,
    changed(({ key }) => key) ? keyElement(part, here.key) : null,
    changed(({ meter }) => meter) ? element("time", element("beats", here.meter.beats), element("beat-type", here.meter.unit)) : null,
    before === null ? clefElement(part) : null,
    changed(({ transposition }) => transposition) ? transposeElement(part, here.transposition, before === null) : null,
    longRestElement(part, bar),
  ].filter((child) => child !== null);
  return children.length === 0 ? null : element("attributes", ...children);
}

interface Reading {
  readonly key: Key;
  readonly transposition: Transposition;
  readonly meter: { readonly beats: number; readonly unit: number };
}

function readingAt(part: Part, bar: number): Reading {
  const frame = part.score.frames[bar];
  if (frame === undefined) throw new RangeError(`There is no bar ${bar} among ${part.score.frames.length}.`);
  return { key: writtenKey(part.line, frame), transposition: partTransposition(part, frame), meter: frame.meter };
}

/** Pipers read no signature, and theirs names no mode. */
function keyElement({ line }: Part, key: Key): XmlElement {
  const isPipes = line.kind === "pipes";
  const visibility: Readonly<Record<string, string>> = isPipes ? { "print-object": "no" } : {};
  return elementWith("key", visibility, element("fifths", fifthsOf(key)), isPipes ? null : element("mode", key.mode));
}

function clefElement(part: Part): XmlElement {
  const { clef, octaves } = partClef(part);
  const [sign, line] = CLEFS[clef];
  return element("clef", element("sign", sign), element("line", line), octaves === 0 ? null : element("clef-octave-change", octaves));
}

/**
 * Whole octaves are counted apart, as the format wants it from an octave upwards. A player at concert pitch needs none; a chanter says even
 * that it sounds as written, since no other chanter does.
 */
function transposeElement({ line }: Part, { diatonic, chromatic }: Transposition, isFirst: boolean): XmlElement | null {
  if (isFirst && line.kind === "concert" && diatonic === 0 && chromatic === 0) return null;
  const octaves = Math.trunc(chromatic / 12);
  return element(
    "transpose",
    element("diatonic", diatonic - 7 * octaves + 0),
    element("chromatic", chromatic - 12 * octaves + 0),
    octaves === 0 ? null : element("octave-change", octaves),
  );
}

/** Each of the bars still has its own rest; readers draw them as one. */
function longRestElement({ restsFrom }: Part, bar: number): XmlElement | null {
  const count = restsFrom.get(bar);
  return count === undefined ? null : element("measure-style", element("multiple-rest", count));
}
