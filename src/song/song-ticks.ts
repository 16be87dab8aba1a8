import { TICKS_PER_QUARTER } from "../units/ticks.ts";
import type { Unit } from "../units/unit.ts";

/**
 * Time in a song that was read, a whole number; see `SONG_TICKS_PER_QUARTER`. Finer than a score's ticks, so that what files hold is
 * held exactly: tuplets of 3, 5, 7, 9 and all up to 20 and nests of them, notes down to 1024ths.
 */
export type SongTicks = Unit<"song ticks">;

/** Song ticks in a quarter note: 2^10 · 3^3 · 5 · 7 · 11 · 13 · 17 · 19. 100,000 quarters stay below the largest exact whole number. */
export const SONG_TICKS_PER_QUARTER = 44_696_171_520;

/** Song ticks in one tick of a score. */
export const SONG_TICKS_PER_TICK = SONG_TICKS_PER_QUARTER / TICKS_PER_QUARTER;

/**
 * Marks a number as song ticks.
 * @throws RangeError when it is not a whole number of zero or more, or too large to be exact.
 */
export function songTicks(value: number): SongTicks {
  if (!Number.isSafeInteger(value) || value < 0) throw new RangeError(`Song ticks are a whole number of zero or more, not ${value}.`);
  return value as SongTicks;
}

/**
 * So many quarters over so many: `exactSongTicks(2, 3)` is two thirds of a quarter. Null where that is no whole number of song ticks.
 * Dyadic fractions are taken above and below.
 */
export function exactSongTicks(numerator: number, denominator: number): SongTicks | null {
  const [above, below] = [numerator * DYADIC, denominator * DYADIC];
  if (!Number.isSafeInteger(above) || !Number.isSafeInteger(below) || above < 0 || below <= 0) return null;
  const divisor = commonDivisor(above, below);
  const rest = below / divisor;
  const value = (above / divisor) * (SONG_TICKS_PER_QUARTER / rest);
  return SONG_TICKS_PER_QUARTER % rest === 0 && Number.isSafeInteger(value) ? (value as SongTicks) : null;
}

/** Makes whole numbers of halves, quarters and so on down to 4096ths. */
const DYADIC = 4096;

/** The greatest whole number that divides both. */
export function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}

/** Song ticks as quarters. A third comes out as the nearest number there is. */
export function quartersOf(time: SongTicks): number {
  return time / SONG_TICKS_PER_QUARTER;
}
