import { listed } from "../units/listed.ts";
import { ReadError } from "../units/read-error.ts";
import { type ChanterNote, isCrossFingered, type PlainNote } from "./chanter-note.ts";
import type { Holes, PipeSetup } from "./pipe-setup.ts";

/** One finger hole. */
export type Hole = "closed" | "open" | "half";

/** How many finger holes there are. */
export const HOLE_COUNT = 8;

/** The holes in order, thumb first, as a player names the finger over each. */
export const HOLE_NAMES: readonly string[] = [
  "thumb",
  "upper index",
  "upper middle",
  "upper ring",
  "lower index",
  "lower middle",
  "lower ring",
  "lower little",
];

/** Fingerings of the nine. *Source:* common practice; eight holes and nine notes: Harris et al., JASA 35 (1963) 1321. */
export const PLAIN_FINGERINGS: Readonly<Record<PlainNote, Holes>> = {
  "low-g": "X XXX XXXX",
  "low-a": "X XXX XXXO",
  b: "X XXX XXOO",
  c: "X XXX XOOX",
  d: "X XXX OOOX",
  e: "X XXO XXXO",
  f: "X XOO XXXO",
  "high-g": "X OOO XXXO",
  "high-a": "O OOX XXXO",
};

const SIGNS: Readonly<Record<string, Hole>> = { X: "closed", O: "open", H: "half" };
const HOLES = /^[XOH] [XOH]{3} [XOH]{4}$/;

/** Whether a text is eight holes as `Holes` says: `X XXX XXXO`. */
export function isHoles(text: unknown): text is Holes {
  return typeof text === "string" && HOLES.test(text);
}

/**
 * Reads eight holes, thumb first. Spaces are optional and small letters are taken.
 * @throws ReadError when there are not eight, or a sign is none of X, O, H.
 */
export function parseHoles(text: string): readonly Hole[] {
  const signs = [...text.toUpperCase().replace(/\s/g, "")];
  const holes = signs.map((sign) => SIGNS[sign]);
  if (holes.length !== HOLE_COUNT || holes.includes(undefined)) {
    throw new ReadError({
      where: "holes",
      expected: "eight holes, X closed, O open, H half, such as X XXX XXXO",
      found: JSON.stringify(text),
    });
  }
  return holes as Hole[];
}

/**
 * Writes eight holes, thumb first, in the groups of the two hands: `X XXX XXXO`.
 * @throws RangeError when there are not eight.
 */
export function formatHoles(holes: readonly Hole[]): Holes {
  if (holes.length !== HOLE_COUNT) throw new RangeError(`A chanter has ${HOLE_COUNT} holes, not ${holes.length}.`);
  const signs = holes.map((hole) => (hole === "closed" ? "X" : hole === "open" ? "O" : "H")).join("");
  return `${signs.slice(0, 1)} ${signs.slice(1, 4)} ${signs.slice(4)}`;
}

/** Holes for the ear of a screen reader: the fingers that are off, or that cover half: `thumb and lower little open`. */
export function spokenHoles(text: Holes): string {
  const holes = parseHoles(text);
  const named = (wanted: Hole, word: string) => {
    const names = HOLE_NAMES.filter((_, index) => holes[index] === wanted);
    return names.length === 0 ? [] : [`${listed(names)} ${word}`];
  };
  const parts = [...named("open", "open"), ...named("half", "half open")];
  return parts.length === 0 ? "all holes closed" : parts.join(", ");
}

/** How a note is fingered on this setup. */
export function holesOf(setup: PipeSetup, note: ChanterNote): Holes {
  if (!isCrossFingered(note)) return setup.fingerings[note];
  const own = setup.crossFingerings.find((fingering) => fingering.note === note);
  if (!own) throw new RangeError(`The setup says nothing of ${note}.`);
  return own.holes;
}

/** The same, hole by hole, thumb first. */
export function fingeringOf(setup: PipeSetup, note: ChanterNote): readonly Hole[] {
  return parseHoles(holesOf(setup, note));
}
