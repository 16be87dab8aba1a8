import type { SongBar, SongMeter } from "../../song/song.ts";
import { SONG_TICKS_PER_QUARTER, songTicks } from "../../song/song-ticks.ts";

/** A bar before it has its place and number. */
export interface DraftedBar {
  /** Song ticks of what is in it; 0 where nothing is. */
  readonly content: number;
  readonly meter: SongMeter | null;
  readonly repeatFrom: boolean;
  readonly repeatTimes: number;
  readonly endings: readonly number[];
  /** The number the file gives it; null where it gives none. */
  readonly number: number | null;
}

/** Song ticks of a whole bar of a meter. */
export function wholeBar(meter: SongMeter): number {
  return (meter.beats * 4 * SONG_TICKS_PER_QUARTER) / meter.unit;
}

/**
 * Bars with their places in time. A first bar shorter than its meter is a pickup. Where the file does not number its bars, they are
 * counted as on paper: a pickup is 0, pieces that make up one bar of the meter count once.
 */
export function numberedBars(drafted: readonly DraftedBar[]): readonly SongBar[] {
  const own = drafted.every(({ number }) => number !== null);
  const bars: SongBar[] = [];
  let onset = 0;
  let filled = 0;
  for (const [index, { content, meter, repeatFrom, repeatTimes, endings, number }] of drafted.entries()) {
    const whole = meter ? wholeBar(meter) : content;
    const length = content > 0 ? content : whole;
    const pickup = index === 0 && length < whole;
    const before = bars.at(-1);
    const goesOn = before !== undefined && !before.pickup && length < whole && filled > 0 && filled + length <= whole;
    filled = length >= whole || pickup ? 0 : goesOn ? filled + length : length;
    if (filled >= whole) filled = 0;
    const counted = before === undefined ? (pickup ? 0 : 1) : before.number + (goesOn ? 0 : 1);
    bars.push({
      number: own ? (number as number) : counted,
      onset: songTicks(onset),
      length: songTicks(length),
      meter,
      pickup,
      repeatFrom,
      repeatTimes,
      endings,
    });
    onset += length;
  }
  return bars;
}
