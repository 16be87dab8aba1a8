/* What a recording says of itself; nothing here knows how the sound was made. */

type Samples = Float32Array<ArrayBufferLike>;

/**
 * The frequency of a steady, periodic sound, in hertz: a first guess from how far it must be shifted to look like itself, made exact by
 * how far the phase of its fundamental has turned between two windows, ever further apart.
 */
export function frequencyOf(samples: Samples, sampleRate: number): number {
  return frequencyNear(samples, sampleRate, guessedFrequency(samples, sampleRate));
}

/** The frequency of the fundamental of a steady sound, in hertz, where it is known to within a few per cent. */
export function frequencyNear(samples: Samples, sampleRate: number, guess: number): number {
  let hertz = guess;
  // What is too short for the widest pair of windows is measured less exactly.
  for (const apart of [0.004, 0.02, 0.1, 0.4].filter((hop) => hop < samples.length / sampleRate - 0.04)) {
    const window = Math.floor(Math.min(0.15, samples.length / sampleRate - apart) * sampleRate);
    const hop = Math.round(apart * sampleRate);
    const turned =
      phaseOf(samples.subarray(hop, hop + window), sampleRate, hertz) - phaseOf(samples.subarray(0, window), sampleRate, hertz);
    // The window's own start adds the phase that the guess turns in the hop; what is left over is the guess's error.
    const expected = (2 * Math.PI * hertz * hop) / sampleRate;
    const error = Math.atan2(Math.sin(turned - expected), Math.cos(turned - expected));
    hertz += (error * sampleRate) / (2 * Math.PI * hop);
  }
  return hertz;
}

/** From one frequency up to another, in cents. */
export function centsFrom(from: number, to: number): number {
  return 1200 * Math.log2(to / from);
}

/** The shift between 90 and 1,200 Hz after which the sound looks most like itself; of several as good, the shortest. */
function guessedFrequency(samples: Samples, sampleRate: number): number {
  const [shortest, longest] = [Math.floor(sampleRate / 1200), Math.ceil(sampleRate / 90)];
  const length = Math.min(4096, samples.length - longest);
  const likeness = Array.from({ length: longest - shortest }, (_, index) => {
    let [product, one, other] = [0, 0, 0];
    for (let at = 0; at < length; at += 1) {
      const [here, there] = [samples[at] as number, samples[at + shortest + index] as number];
      product += here * there;
      one += here * here;
      other += there * there;
    }
    return product / Math.sqrt(one * other || 1);
  });
  const most = Math.max(...likeness);
  let best = likeness.findIndex((value) => value > most * 0.97);
  while ((likeness[best + 1] ?? -1) > (likeness[best] as number)) best += 1;
  return sampleRate / (shortest + best);
}

/** The phase in radians of one frequency at a stretch's first sample, seen through a Blackman-Harris window. */
function phaseOf(samples: Samples, sampleRate: number, hertz: number): number {
  let [real, imaginary] = [0, 0];
  for (let at = 0; at < samples.length; at += 1) {
    const turn = (2 * Math.PI * at) / (samples.length - 1);
    const weight = 0.35875 - 0.48829 * Math.cos(turn) + 0.14128 * Math.cos(2 * turn) - 0.01168 * Math.cos(3 * turn);
    const angle = (2 * Math.PI * hertz * at) / sampleRate;
    real += weight * (samples[at] as number) * Math.cos(angle);
    imaginary -= weight * (samples[at] as number) * Math.sin(angle);
  }
  return Math.atan2(imaginary, real);
}

/** The first sample that is not (almost) nothing; -1 when all are. */
export function firstHeard(samples: Samples, threshold = 1e-7): number {
  return samples.findIndex((value) => Math.abs(value) > threshold);
}

/** The first sample in which two recordings differ; -1 when none does. */
export function firstDifference(one: Samples, other: Samples, threshold = 1e-6): number {
  return one.findIndex((value, index) => Math.abs(value - (other[index] as number)) > threshold);
}

/** The largest step from one sample to the next. */
export function largestStep(samples: Samples): number {
  let largest = 0;
  for (let at = 1; at < samples.length; at += 1)
    largest = Math.max(largest, Math.abs((samples[at] as number) - (samples[at - 1] as number)));
  return largest;
}

/** The largest value, whatever its sign. */
export function peakOf(samples: Samples): number {
  return samples.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
}

/** The effective value (root mean square). */
export function effectiveValue(samples: Samples): number {
  return Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / samples.length);
}

/** The least effective value of any window of `length` samples. */
export function quietestWindow(samples: Samples, length: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let from = 0; from + length <= samples.length; from += 8)
    least = Math.min(least, effectiveValue(samples.subarray(from, from + length)));
  return least;
}

/** The part of a recording between two seconds. */
export function between(samples: Samples, sampleRate: number, from: number, to: number): Samples {
  return samples.subarray(Math.round(from * sampleRate), Math.round(to * sampleRate));
}

/** How loud the part of a sound around a frequency is, over time: its amplitude once every `hop` seconds, seen through windows of `window` seconds. */
export function loudnessAround(samples: Samples, sampleRate: number, hertz: number, window: number, hop: number): readonly number[] {
  const [width, step] = [Math.round(window * sampleRate), Math.round(hop * sampleRate)];
  const loudness: number[] = [];
  for (let from = 0; from + width <= samples.length; from += step) {
    let [real, imaginary, weights] = [0, 0, 0];
    for (let at = 0; at < width; at += 1) {
      const weight = 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / (width - 1));
      const angle = (2 * Math.PI * hertz * at) / sampleRate;
      real += weight * (samples[from + at] as number) * Math.cos(angle);
      imaginary += weight * (samples[from + at] as number) * Math.sin(angle);
      weights += weight;
    }
    loudness.push((2 * Math.hypot(real, imaginary)) / weights);
  }
  return loudness;
}

/** How often in a second a loudness that rises and falls does so: the time between the first dip and the last, shared out. 0 where it does not dip twice. */
export function beatsASecond(loudness: readonly number[], hop: number): number {
  const middle = (Math.max(...loudness) + Math.min(...loudness)) / 2;
  const dips = loudness.flatMap((value, index) => {
    const before = loudness[index - 1];
    return before !== undefined && before >= middle && value < middle ? [index - (middle - value) / (before - value)] : [];
  });
  const [first, last] = [dips[0], dips.at(-1)];
  return first === undefined || last === undefined || last === first ? 0 : (dips.length - 1) / ((last - first) * hop);
}

/** Half the length of the high-pass that finds jumps, in samples, and where it begins, as a share of the sample rate: 14 kHz at 48. */
const EDGE = 64;
const ABOVE = 14 / 48;

/** A windowed-sinc high-pass (Blackman, 74 dB), its middle at `EDGE`. *Source:* any handbook of digital filters. */
const HIGH_PASS = Float64Array.from({ length: 2 * EDGE + 1 }, (_, index) => {
  const [at, turn] = [index - EDGE, (Math.PI * index) / EDGE];
  const low = at === 0 ? 2 * ABOVE : Math.sin(2 * Math.PI * ABOVE * at) / (Math.PI * at);
  return ((at === 0 ? 1 : 0) - low) * (0.42 - 0.5 * Math.cos(turn) + 0.08 * Math.cos(2 * turn));
});

/** What a jump of 1 leaves of itself above that: the largest of the filter's sums. */
const OF_A_JUMP = HIGH_PASS.reduce(([sum, most], weight) => [sum + weight, Math.max(most, Math.abs(sum + weight))] as const, [
  0, 0,
] as readonly [number, number])[1];

/**
 * The largest jump in a sound: what is heard above 14 kHz (at 48,000 samples a second), as the size of the jump from one sample to the next that would
 * sound so. In music that has no partials up there it is next to nothing, however steep its waves.
 */
export function largestJump(samples: Samples): number {
  let most = 0;
  for (let from = 0; from + HIGH_PASS.length <= samples.length; from += 1) {
    let sum = 0;
    for (let at = 0; at < HIGH_PASS.length; at += 1) sum += (HIGH_PASS[at] as number) * (samples[from + at] as number);
    most = Math.max(most, Math.abs(sum));
  }
  return most / OF_A_JUMP;
}
