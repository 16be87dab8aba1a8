import { chordPitchClasses, readChord, transposedChord } from "../pitch/chord.ts";
import { alterOf } from "../pitch/spelling.ts";
import type { Transposition } from "../pitch/transpose.ts";
import type { Chord } from "../score/frame.ts";
import { element, elementWith, type XmlElement } from "./xml.ts";

/**
 * The kinds of chord the format has a word for, by their semitones above the root; the plainest first.
 * *Source:* MusicXML 4.0, `kind-value`; a thirteenth without its eleventh, as it is in use.
 */
const KINDS: readonly (readonly [kind: string, tones: readonly number[]])[] = [
  ["major", [0, 4, 7]],
  ["minor", [0, 3, 7]],
  ["suspended-fourth", [0, 5, 7]],
  ["suspended-second", [0, 2, 7]],
  ["power", [0, 7]],
  ["augmented", [0, 4, 8]],
  ["diminished", [0, 3, 6]],
  ["dominant", [0, 4, 7, 10]],
  ["major-seventh", [0, 4, 7, 11]],
  ["minor-seventh", [0, 3, 7, 10]],
  ["major-sixth", [0, 4, 7, 9]],
  ["minor-sixth", [0, 3, 7, 9]],
  ["half-diminished", [0, 3, 6, 10]],
  ["diminished-seventh", [0, 3, 6, 9]],
  ["augmented-seventh", [0, 4, 8, 10]],
  ["major-minor", [0, 3, 7, 11]],
  ["dominant-ninth", [0, 2, 4, 7, 10]],
  ["major-ninth", [0, 2, 4, 7, 11]],
  ["minor-ninth", [0, 2, 3, 7, 10]],
  ["dominant-11th", [0, 2, 4, 5, 7, 10]],
  ["major-11th", [0, 2, 4, 5, 7, 11]],
  ["minor-11th", [0, 2, 3, 5, 7, 10]],
  ["dominant-13th", [0, 2, 4, 7, 9, 10]],
  ["major-13th", [0, 2, 4, 7, 9, 11]],
  ["minor-13th", [0, 2, 3, 7, 9, 10]],
];

/** Degrees by semitones above the root, with what each raises or lowers against a chord on the dominant, as the format counts them. */
const DEGREES: readonly (readonly [degree: number, alter: number])[] = [
  [1, 0],
  [9, -1],
  [9, 0],
  [3, -1],
  [3, 0],
  [11, 0],
  [11, 1],
  [5, 0],
  [13, -1],
  [13, 0],
  [7, 0],
  [7, 1],
];

/** How a chord is shown: moved to the part's own pitch, and whether it is printed. */
export interface HarmonyReading {
  /** What to add to the concert pitch. */
  readonly interval: Transposition;
  readonly printed: boolean;
}

/** A chord symbol; `offset` ticks after the place where it stands. A text that is no chord stands as it is, so that nothing is lost. */
export function harmonyElement(chord: Chord, offset: number, { interval, printed }: HarmonyReading): XmlElement {
  const symbol = transposedChord(chord.symbol, interval.diatonic, interval.chromatic);
  const offsetElement = offset === 0 ? null : element("offset", offset);
  const visibility: Readonly<Record<string, string>> = printed ? {} : { "print-object": "no" };
  const read = readChord(symbol);
  if (read === null) return elementWith("harmony", visibility, ...rootlessChord(symbol), offsetElement);
  const { kind, added, missing } = nearestKind(read.tones);
  return elementWith(
    "harmony",
    visibility,
    pitchClass("root", read.root),
    elementWith("kind", { text: read.quality }, kind),
    read.bass === null ? null : pitchClass("bass", read.bass),
    ...added.map((tone) => degreeElement(tone, "add")),
    ...missing.map((tone) => degreeElement(tone, "subtract")),
    offsetElement,
  );
}

/** A symbol that says no chord sounds, or one that cannot be read, as it was written. The format wants a root even here; it is not shown. */
function rootlessChord(symbol: string): readonly XmlElement[] {
  const kind = chordPitchClasses(symbol) === null ? "other" : "none";
  return [element("root", elementWith("root-step", { text: "" }, "C")), elementWith("kind", { text: symbol.trim() }, kind)];
}

/** The kind that needs the fewest degrees added or left out. */
function nearestKind(tones: readonly number[]): {
  readonly kind: string;
  readonly added: readonly number[];
  readonly missing: readonly number[];
} {
  const choices = KINDS.map(([kind, own]) => ({
    kind,
    added: tones.filter((tone) => !own.includes(tone)),
    missing: own.filter((tone) => !tones.includes(tone)),
  }));
  return choices.reduce((best, choice) => (costOf(choice) < costOf(best) ? choice : best));
}

/** A degree left out is harder to read than one added. */
function costOf({ added, missing }: { readonly added: readonly number[]; readonly missing: readonly number[] }): number {
  return added.length + 1.5 * missing.length;
}

function degreeElement(tone: number, type: "add" | "subtract"): XmlElement {
  const [degree, alter] = DEGREES[tone] as readonly [number, number];
  return elementWith(
    "degree",
    { "print-object": "no" },
    element("degree-value", degree),
    element("degree-alter", type === "add" ? alter : 0),
    element("degree-type", type),
  );
}

function pitchClass(role: "root" | "bass", name: string): XmlElement {
  const alter = alterOf(name.slice(1));
  return element(role, element(`${role}-step`, name.slice(0, 1)), alter === 0 ? null : element(`${role}-alter`, alter));
}
