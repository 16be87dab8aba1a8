import { type ChanterNote, isCrossFingered } from "../../src/pipes/chanter-note.ts";
import { GRID_REACH } from "../../src/pipes/drones.ts";
import { noteName, spokenNote } from "../../src/pipes/note-names.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { centsOffBand, centsOverLowA, concertPitchOf, notesThatSpeak } from "../../src/pipes/sounding.ts";
import type { ConcertPitch } from "../../src/pitch/concert-pitch.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { shownPitch, spokenPitch } from "../../src/pitch/spelling.ts";
import type { Cents } from "../../src/units/cents.ts";
import type { Hertz } from "../../src/units/hertz.ts";
import { shownCents } from "../../src/units/shown.ts";
import { type GridMeasures, heightOf } from "./grid-measures.ts";

/** A row of the grid: one note the setup plays, at its true height. */
export interface GridRow {
  readonly note: ChanterNote;
  readonly name: string;
  readonly crossFingered: boolean;
  readonly concert: ConcertPitch;
  /** Semitone class of the concert pitch, 0 to 11 from C. */
  readonly pitchClass: number;
  readonly cents: Cents;
  readonly offBand: Cents;
  /** Px from the grid's top: where it sounds. */
  readonly y: number;
  /** Where its words stand: `y`, or a little off it where rows crowd. */
  readonly labelY: number;
  /** Where the band has the same concert pitch. */
  readonly bandY: number;
}

/** Words nearer than this give way. */
const LEAST_APART = 20;
const GIVES_WAY = 2;

/** Cents off the band beyond which they are written in full ink: about what musicians notice. *Source:* Arndt et al. (2020), near 10 cents. */
export const NOTICED = 10;

/** The rows of a setup against a band, highest first. */
export function gridRows(setup: PipeSetup, bandA: Hertz, measures: GridMeasures): readonly GridRow[] {
  const rows = [...notesThatSpeak(setup)].map((note) => rowOf(setup, note, bandA, measures)).sort((one, other) => one.y - other.y);
  const shifts = rows.map(() => 0);
  for (let index = 1; index < rows.length; index += 1) {
    if ((rows[index] as GridRow).y - (rows[index - 1] as GridRow).y >= LEAST_APART) continue;
    shifts[index - 1] = (shifts[index - 1] as number) - GIVES_WAY;
    shifts[index] = (shifts[index] as number) + GIVES_WAY;
  }
  return rows.map((row, index) => ({ ...row, labelY: row.y + (shifts[index] as number) }));
}

function rowOf(setup: PipeSetup, note: ChanterNote, bandA: Hertz, measures: GridMeasures): GridRow {
  const concert = concertPitchOf(setup, note);
  const cents = centsOverLowA(setup, note);
  const offBand = centsOffBand(setup, note, bandA);
  const y = heightOf(measures, cents);
  return {
    note,
    name: noteName(note),
    crossFingered: isCrossFingered(note),
    concert,
    pitchClass: ((semitoneOf(concert) % 12) + 12) % 12,
    cents,
    offBand,
    y,
    labelY: y,
    bandY: heightOf(measures, cents - offBand),
  };
}

/** Heights of the band's semitones that no row is tied to, px from the grid's top. */
export function bareSemitones(rows: readonly GridRow[], measures: GridMeasures): readonly number[] {
  const any = rows[0];
  if (any === undefined) return [];
  const named = new Set(rows.map((row) => semitoneOf(row.concert)));
  const anySemitone = semitoneOf(any.concert);
  const anyCents = any.cents - any.offBand;
  const heights: number[] = [];
  for (let semitone = anySemitone - 24; semitone <= anySemitone + 24; semitone += 1) {
    const over = anyCents + (semitone - anySemitone) * 100;
    if (over < GRID_REACH.lowest || over > GRID_REACH.highest || named.has(semitone)) continue;
    heights.push(heightOf(measures, over));
  }
  return heights;
}

/** The row nearest to a height. */
export function rowAt(rows: readonly GridRow[], y: number): GridRow {
  const nearest = rows.reduce<GridRow | null>(
    (best, row) => (best === null || Math.abs(row.y - y) < Math.abs(best.y - y) ? row : best),
    null,
  );
  if (nearest === null) throw new RangeError("A grid has rows.");
  return nearest;
}

/** The note so many rows above (below, if negative) another, staying within the rows. A note without a row counts as the nearest one. */
export function noteBeside(rows: readonly GridRow[], from: ChanterNote, y: number, by: number): ChanterNote {
  const own = rows.findIndex((row) => row.note === from);
  if (own >= 0) return (rows[Math.min(rows.length - 1, Math.max(0, own - by))] as GridRow).note;
  const beside = by > 0 ? rows.filter((row) => row.y < y).at(-1) : rows.find((row) => row.y > y);
  return (beside ?? rowAt(rows, y)).note;
}

/** Concert pitch and cents as figures: `A♯5 −21`. */
export function rowFigures(row: GridRow): string {
  return `${shownPitch(row.concert)} ${shownCents(row.offBand)}`;
}

/** A row for the ear: `high G sharp, A sharp 5, 21 cents low`. */
export function spokenRow(row: GridRow): string {
  return `${spokenNote(row.note)}, ${spokenPitch(row.concert)}, ${spokenOff(row.offBand)}`;
}

/** Cents off the band for the ear: `21 cents low`, `in tune`. */
export function spokenOff(off: Cents): string {
  const size = Math.round(Math.abs(off));
  if (size === 0) return "in tune with the band";
  return `${size} ${size === 1 ? "cent" : "cents"} ${off < 0 ? "low" : "high"}`;
}
