/** A second of a schedule as a time of the audio clock, on a whole sample. */
export type TimeOf = (second: number) => number;

/**
 * A hair before the sample that is meant, in samples: a change takes effect with the first sample that is not before it, and a time that is a
 * whole number of samples on paper may come out a hair after it.
 */
const A_HAIR = 0.001;

/**
 * Lays a schedule on the audio clock.
 *
 * @param offset what to add to a second of the schedule
 */
export function timeOnClock(offset: number, sampleRate: number): TimeOf {
  return (second) => {
    const sample = Math.round((second + offset) * sampleRate);
    return (sample > 0 ? sample - A_HAIR : sample) / sampleRate;
  };
}
