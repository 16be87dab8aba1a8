import type { Quantising } from "../../song/song.ts";
import { exactSongTicks, SONG_TICKS_PER_QUARTER, songTicks } from "../../song/song-ticks.ts";

/** Parts a quarter may be divided into, the plainest first: what players play. */
const DIVISIONS = [1, 2, 3, 4, 6, 8] as const;

/** Further divisions, taken only where every onset of the quarter lies upon them to a tick: a program wrote them, no hand. */
const EXACT_DIVISIONS = [1, 2, 3, 4, 6, 8, 5, 7, 12, 16, 24, 32] as const;

/** What a finer division must save on an onset, in quarters, for each part it has more. Our own: keeps a hand's wavering off 32nds. */
const COST_OF_A_PART = 0.006;

/** Puts moments on a grid; times in quarters come from ticks of a MIDI file, times out are song ticks. */
export interface Quantiser {
  /** A moment on the grid of its quarter. */
  snapped(tick: number): number;
  /** Where a note ends: exactly there if that is an eighth or a sixth of a quarter or a multiple of one, else on the nearest sixteenth or its quarter's grid. */
  snappedEnd(tick: number): { readonly at: number; readonly exact: boolean };
  readonly report: Quantising;
}

/**
 * Finds, quarter by quarter, the division its onsets lie on: their own where a program wrote them, else the plainest that is near enough.
 * @param onsets ticks, in any order
 */
export function quantiser(onsets: readonly number[], ticksPerQuarter: number): Quantiser {
  const byQuarter = new Map<number, number[]>();
  for (const onset of onsets) {
    // Half a 32nd before the beat is the beat, a little early.
    const quarter = Math.floor(onset / ticksPerQuarter + 1 / 16);
    const place = onset / ticksPerQuarter - quarter;
    const places = byQuarter.get(quarter);
    if (places) places.push(place);
    else byQuarter.set(quarter, [place]);
  }
  const tolerance = 1 / ticksPerQuarter;
  const divisions = new Map([...byQuarter].map(([quarter, places]) => [quarter, divisionFor(places, tolerance)]));
  let [largest, sum, finest] = [0, 0, 1];
  for (const [quarter, places] of byQuarter) {
    const division = divisions.get(quarter) as number;
    finest = Math.max(finest, division);
    for (const place of places) {
      const error = errorOn(place, division);
      largest = Math.max(largest, error);
      sum += error;
    }
  }
  const onGrid = (tick: number, finest: number): number => {
    const quarter = Math.floor(tick / ticksPerQuarter + 1 / 16);
    const place = tick / ticksPerQuarter - quarter;
    const division = divisions.get(quarter) ?? finest;
    const best = errorOn(place, finest) < errorOn(place, division) ? finest : division;
    return quarter * SONG_TICKS_PER_QUARTER + (Math.round(place * best) * SONG_TICKS_PER_QUARTER) / best;
  };
  return {
    snapped: (tick) => onGrid(tick, divisions.get(Math.floor(tick / ticksPerQuarter + 1 / 16)) ?? 4),
    snappedEnd(tick) {
      const written =
        (tick * 8) % ticksPerQuarter === 0 || (tick * 6) % ticksPerQuarter === 0 ? exactSongTicks(tick, ticksPerQuarter) : null;
      return { exact: written !== null, at: written ?? onGrid(tick, 4) };
    },
    report: {
      grid: songTicks(SONG_TICKS_PER_QUARTER / finest),
      largestError: largest,
      meanError: onsets.length === 0 ? 0 : sum / onsets.length,
    },
  };
}

function divisionFor(places: readonly number[], tolerance: number): number {
  const exact = EXACT_DIVISIONS.find(
    (division) => division * tolerance < 0.25 && places.every((place) => errorOn(place, division) <= tolerance * 0.51),
  );
  if (exact !== undefined) return exact;
  const cost = (division: number): number =>
    places.reduce((total, place) => total + errorOn(place, division) + COST_OF_A_PART * division, 0);
  return DIVISIONS.reduce((best: number, division) => (cost(division) < cost(best) ? division : best), 1);
}

function errorOn(place: number, division: number): number {
  return Math.abs(place - Math.round(place * division) / division);
}
