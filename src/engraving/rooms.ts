import type { Clef } from "../ensemble/player.ts";
import type { BarContext } from "./bar-context.ts";
import { headingWidth } from "./bar-heading.ts";
import type { BarSign } from "./bar-signs.ts";
import type { BeamGroup } from "./beam-groups.ts";
import { STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { gracenotesWidth } from "./gracenotes.ts";
import { CHART_WIDTH } from "./hole-chart.ts";
import { meterStrip, signatureStrip, staffY } from "./signature.ts";
import { textWidth } from "./text-width.ts";

/** How much room a sign takes, from the left edge of its head. */
export interface Room {
  /** Before it: accidentals and gracenotes. */
  readonly before: number;
  /** Of that, the accidentals alone. */
  readonly accidentals: number;
  /** The head itself, its dots and flag. */
  readonly after: number;
  /** The syllable under it; 0 where none is. */
  readonly syllable: number;
  /** The chord over it, or over the time until the next sign; 0 where none is. */
  readonly chord: number;
  /** The chart over it, on pages: there charts that follow each other stand side by side. */
  readonly chart: number;
}

/** Whether the stem of a sign goes up. */
export type Stem = "up" | "down";

/** Size of the syllables under the staff. */
export const SYLLABLE_SIZE = 12.5;

/** From one verse to the next. */
export const VERSE_STEP = 16;

/** How chords are set. */
export const CHORD_TYPE = { face: "serif", weight: 600, size: 14 } as const;

/** How directions over the staff are set. */
export const DIRECTION_TYPE = { face: "italic", weight: 400, size: 13 } as const;

/** Between any two signs there is at least so much paper. */
export const LEAST_GAP = 2;

/** Between a bar line and what follows it. */
export const AFTER_BAR_LINE = 3;

const BETWEEN_WORDS = 4;

/** More than the hands of one chart are apart, so that two are not read as one. */
const BETWEEN_CHARTS = 8;

/** What each kind of bar line takes at the end of its bar. */
export const CLOSING_ROOM = { plain: 4, double: 6, final: 7, repeat: 12 } as const;

/** Room for a repeat sign at the beginning. */
const REPEAT_ROOM = 12;

/** The clef of a part as it is read. */
export function clefOf(context: Pick<BarContext, "reading">): Clef {
  return context.reading.kind === "pipes" ? "treble" : context.reading.clef;
}

/** Which way each sign's stem points: down in a pipe part; elsewhere away from the middle line, a beam deciding for all under it. */
export function stemsOf(signs: readonly BarSign[], beams: readonly BeamGroup[], context: Pick<BarContext, "reading">): readonly Stem[] {
  if (context.reading.kind === "pipes") return signs.map(() => "down");
  const clef = clefOf(context);
  const stems: Stem[] = signs.map((sign) => stemFor([sign], clef));
  for (const beam of beams) {
    const stem = stemFor(
      beam.map((index) => signs[index] as BarSign),
      clef,
    );
    for (const index of beam) stems[index] = stem;
  }
  return stems;
}

function stemFor(signs: readonly BarSign[], clef: Clef): Stem {
  const offsets = signs.flatMap(({ heads }) =>
    heads.map(({ spelling }) => staffY(spelling.letter, spelling.octave, clef) - 2 * STAFF_SPACE),
  );
  const highest = Math.min(...offsets);
  const lowest = Math.max(...offsets);
  return highest + lowest > 0 ? "up" : "down";
}

/** The room that each sign takes. */
export function roomsOf(
  signs: readonly BarSign[],
  beams: readonly BeamGroup[],
  stems: readonly Stem[],
  context: BarContext,
): readonly Room[] {
  const beamed = new Set(beams.flat());
  return signs.map((sign, index) => ({
    ...roomOf(sign, stems[index] ?? "down", beamed.has(index), clefOf(context)),
    chord: chordRoom(sign, signs[index + 1], context),
    chart: sign.holes !== null && context.charts === "cross-fingered" && context.spacing === "page" ? CHART_WIDTH + BETWEEN_CHARTS : 0,
  }));
}

/** The width of a sign's head. */
export function headWidth(sign: BarSign): number {
  const { base } = sign.value;
  return glyphWidth(base === 1 ? SIGN.head.whole : base === 2 ? SIGN.head.half : SIGN.head.black);
}

/** The SMuFL code of a rest: from the whole to the 32nd they follow each other. */
export function restCode({ value }: BarSign): number {
  return SIGN.wholeRest + Math.log2(value.base);
}

function roomOf(sign: BarSign, stem: Stem, isBeamed: boolean, clef: Clef): Omit<Room, "chord" | "chart"> {
  const dot = sign.value.dots * (glyphWidth(SIGN.dot) + 3.5);
  const syllable = Math.max(0, ...sign.syllables.map((one) => syllableWidth(one)));
  if (sign.heads.length === 0) return { before: 0, accidentals: 0, after: glyphWidth(restCode(sign)) + dot, syllable };
  const accidentals = accidentalsWidth(sign);
  // One head of a second stands on the other side of the stem.
  const displaced = stem === "down" && hasSecond(sign, clef) ? headWidth(sign) : 0;
  const gracenotes = gracenotesWidth(
    sign.gracenotes,
    topY(sign, clef),
    sign.heads.some(({ accidental }) => accidental !== null),
  );
  return {
    before: accidentals + gracenotes + displaced,
    accidentals: accidentals + displaced,
    after: roomOfHeads(sign, stem, isBeamed, clef) + dot,
    syllable,
  };
}

/** What a flag that points up takes right of its head. */
const FLAG = 7.4;

/** From the left edge of a note's head to where its dots may begin: after a head on the other side of the stem and after a flag. */
export function roomOfHeads(sign: BarSign, stem: Stem, isBeamed: boolean, clef: Clef): number {
  const isFlagged = stem === "up" && !isBeamed && sign.value.base >= 8;
  const displaced = stem === "up" && hasSecond(sign, clef) ? headWidth(sign) : 0;
  return headWidth(sign) + Math.max(displaced, isFlagged ? FLAG : 0);
}

/** Whether two heads stand so close that one has to go to the other side of the stem. */
export function hasSecond(sign: BarSign, clef: Clef): boolean {
  const ys = sign.heads.map(({ spelling }) => staffY(spelling.letter, spelling.octave, clef));
  return ys.some((y, index) => index > 0 && Math.abs(y - (ys[index - 1] as number)) < STAFF_SPACE);
}

/** y of a sign's highest head. */
export function topY(sign: BarSign, clef: Clef): number {
  return Math.min(...sign.heads.map(({ spelling }) => staffY(spelling.letter, spelling.octave, clef)));
}

/** How wide a syllable is, with room for the hyphen after it. */
export function syllableWidth({ text, hyphen }: { readonly text: string; readonly hyphen: boolean }): number {
  return textWidth(hyphen ? `${text}-` : text, "serif", 400, SYLLABLE_SIZE);
}

/** How far apart the heads of two signs must be that both have a word of this width or the next one of its row. */
export function wordDistance(width: number): number {
  return width + BETWEEN_WORDS;
}

/** The widest chord that begins with a sign or before the next one. */
function chordRoom(sign: BarSign, next: BarSign | undefined, { chords }: BarContext): number {
  if (sign.wholeBar) return 0;
  const over = chords.filter(({ at }) => at >= sign.at && (next === undefined || at < next.at));
  return Math.max(0, ...over.map(({ text }) => textWidth(text, CHORD_TYPE.face, CHORD_TYPE.weight, CHORD_TYPE.size)));
}

/** What stands over a note that begins or ends the chanter's sound. */
export function articulationWords({ strikeIn, cutOff }: BarSign): string {
  if (strikeIn && cutOff) return "strike-in, cut-off";
  return strikeIn ? "strike-in" : cutOff ? "cut-off" : "";
}

/** Paper that words at the edges of a bar keep free. */
const BESIDE_WORDS = 3;

/**
 * How wide a bar has to be for the widest of the words over it: its section and tempo, its directions, where the chanter starts and stops. The heading may run on over so much of the next bar.
 */
export function wordsRoom(signs: readonly BarSign[], context: BarContext, runsOn = 0): number {
  const widthOf = (words: string) => textWidth(words, DIRECTION_TYPE.face, DIRECTION_TYPE.weight, DIRECTION_TYPE.size);
  const widest = Math.max(
    headingWidth(context) - runsOn,
    widthOf(context.directions),
    ...signs.map((sign) => widthOf(articulationWords(sign))),
  );
  return widest === 0 ? 0 : widest + 2 * BESIDE_WORDS;
}

/** Whether a ledger line sticks out beside a sign's head or gracenotes. */
export function hasLedger(sign: BarSign, clef: Clef): boolean {
  const ys = sign.heads.map(({ spelling }) => staffY(spelling.letter, spelling.octave, clef));
  return sign.gracenotes.includes("high-a") || ys.some((y) => y <= -STAFF_SPACE || y >= STAFF_HEIGHT + STAFF_SPACE);
}

/** Accidentals of a chord stand in columns; each is given its own, which is never too little. */
function accidentalsWidth(sign: BarSign): number {
  let width = 0;
  for (const { accidental } of sign.heads) {
    if (accidental !== null) width += glyphWidth(SIGN.accidentals[accidental + 2] as number) + 2.2;
  }
  return width;
}

/** Where the first sign's own room may begin: after the bar line and whatever signature, meter or repeat sign stands there. */
export function openingRoom(context: BarContext): number {
  let x = AFTER_BAR_LINE;
  if (context.keyBefore !== null) x += signatureStrip(context.key, context.keyBefore, clefOf(context), 0).width + 4;
  if (context.meterShown) x += meterStrip(context.meter, 0).width + 4;
  if (context.opening === "repeat") x += REPEAT_ROOM;
  return x;
}
