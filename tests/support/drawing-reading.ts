import type { BarDrawing, GlyphMark, MarkGroup } from "../../src/engraving/drawing.ts";
import { LETTER_SEMITONES, letterAt } from "../../src/pitch/letter.ts";
import type { Ticks } from "../../src/units/ticks.ts";

/*
 * Reads a drawing as a player does, from nothing but the ink: the clef says which letter a line is, the signature and the accidentals say
 * how it is altered, the bar rule says for how long.
 */

/** Bottom lines of the clefs by their signs: E4, F3, G2, as staff steps above C0. */
const BOTTOM_LINES: Readonly<Record<number, number>> = { 57424: 30, 57436: 24, 57442: 18 };

/** Accidental signs (SMuFL U+E260 to U+E264): flat, natural, sharp, double sharp, double flat. */
const ALTERS: Readonly<Record<number, number>> = { 57952: -1, 57953: 0, 57954: 1, 57955: 2, 57956: -2 };

const HEADS = [57506, 57507, 57508];

/** What a reader knows at a bar's beginning. */
export interface Reading {
  readonly bottomLine: number;
  /** By letter, what the signature does; a pipe part has none printed, and C and F are understood sharp. */
  readonly signature: ReadonlyMap<string, number>;
}

/** One printed head: the moment of its event and what is read. */
export interface ReadHead {
  readonly at: number;
  readonly x: number;
  /** Counted as MIDI does; C4 is 60. */
  readonly semitone: number;
  /** Staff steps above C0. */
  readonly step: number;
}

/** Reads clef and signature at the head of a staff. */
export function readHead(head: BarDrawing, understood: Readonly<Record<string, number>> = {}): Reading {
  const signs = head.groups.filter(({ role }) => role === "signature").flatMap(glyphs);
  const bottomLine = signs.map(({ code }) => BOTTOM_LINES[code]).find((line) => line !== undefined);
  if (bottomLine === undefined) throw new RangeError("no clef");
  return { bottomLine, signature: signatureOf(signs, bottomLine, new Map(Object.entries(understood))) };
}

/** Reads the heads of a bar, in order. Heads of a note held over from `held` keep its alterations. Returns what the next bar is read with. */
export function readBar(
  drawing: BarDrawing,
  reading: Reading,
  held: ReadonlyMap<number, readonly number[]> = new Map(),
): { readonly heads: readonly ReadHead[]; readonly reading: Reading } {
  const changes = drawing.groups.filter(({ role }) => role === "signature").flatMap(glyphs);
  const isChange = changes.some(({ code }) => ALTERS[code] !== undefined);
  const signature = isChange ? signatureOf(changes, reading.bottomLine, new Map()) : reading.signature;
  const inForce = new Map<number, number>();
  const heads: ReadHead[] = [];
  const tied = new Set(drawing.groups.filter(({ role }) => role === "tie").map(({ at }) => at));
  let first: number | null = null;
  // What the sign before was read as: a tie hands it on.
  let before: { readonly at: number; readonly alters: ReadonlyMap<number, readonly number[]> } | null = null;
  for (const group of drawing.groups) {
    if (group.role !== "note" || group.at === null) continue;
    first ??= group.at;
    // Two heads at one height have two accidentals there, from left to right as the heads stand from low to high.
    const printed = new Map<number, number[]>();
    for (const sign of glyphs(group)) {
      const alter = ALTERS[sign.code];
      if (alter === undefined) continue;
      const step = stepOf(sign, reading.bottomLine);
      inForce.set(step, alter);
      printed.set(step, [...(printed.get(step) ?? []), alter]);
    }
    const kept = group.at === first && before === null ? held : before !== null && tied.has(before.at as Ticks) ? before.alters : null;
    const alters = new Map<number, number[]>();
    for (const sign of glyphs(group).filter(({ code }) => HEADS.includes(code))) {
      const step = stepOf(sign, reading.bottomLine);
      const letter = letterAt(step);
      const here = alters.get(step) ?? [];
      const order = here.length;
      const fromBefore = before === null ? kept?.get(step)?.[order] : undefined;
      const alter = fromBefore ?? printed.get(step)?.[order] ?? kept?.get(step)?.[order] ?? inForce.get(step) ?? signature.get(letter) ?? 0;
      alters.set(step, [...here, alter]);
      heads.push({ at: group.at, x: sign.x, step, semitone: 12 * (Math.floor(step / 7) + 1) + LETTER_SEMITONES[letter] + alter });
    }
    before = { at: group.at, alters };
  }
  return { heads, reading: { ...reading, signature } };
}

/** The alteration that a head was read with. */
export function alterOfHead({ step, semitone }: ReadHead): number {
  return semitone - (12 * (Math.floor(step / 7) + 1) + LETTER_SEMITONES[letterAt(step)]);
}

/** The signs of the music font in a group. */
export function glyphs(group: MarkGroup): readonly GlyphMark[] {
  return group.marks.filter((mark): mark is GlyphMark => mark.kind === "glyph");
}

function signatureOf(signs: readonly GlyphMark[], bottomLine: number, start: Map<string, number>): ReadonlyMap<string, number> {
  for (const sign of signs) {
    const alter = ALTERS[sign.code];
    if (alter !== undefined) start.set(letterAt(stepOf(sign, bottomLine)), alter);
  }
  return start;
}

/** A sign's height on the staff: 28 is the bottom line, 3.5 a step. */
function stepOf({ y }: GlyphMark, bottomLine: number): number {
  const steps = (28 - y) / 3.5;
  if (Math.abs(steps - Math.round(steps)) > 0.02) throw new RangeError(`A sign at y ${y} stands on no line and in no space.`);
  return bottomLine + Math.round(steps);
}
