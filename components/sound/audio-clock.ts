/** A second of a schedule as a time of the audio clock, on a whole sample. */
export type TimeOf = (second: number) => number;

/**
 * Lays a schedule on the audio clock.
 *
 * @param offset what to add to a second of the schedule
 */
export function timeOnClock(offset: number, sampleRate: number): TimeOf {
  return (second) => Math.round((second + offset) * sampleRate) / sampleRate;
}
