import { RATE } from "./render.mjs";

/** Over so many seconds before its end a loop is faded into what comes before its start; so long the waves have to be alike. The player does the same. */
const CROSSFADE = 0.08;

/** A loop is so long, seconds: one to several cycles of a vibrato; and so many periods at least, or it would not close in tune. */
const SHORTEST = 0.35;
const LONGEST = 1.3;
const FEWEST_PERIODS = 40;

/** From here on waves are alike enough that a shorter loop is better than a longer one that is a little more alike. */
const ENOUGH = 0.995;

/**
 * Where a held note can go round, samples: the two places that are most alike, in loudness and in wave, so that a vibrato closes too.
 * `likeness` is 1 where the waves are the same.
 */
export function bestLoop(samples, hertz, earliest, latest) {
  const period = RATE / hertz;
  const coarse = Math.max(1, Math.round(period / 4));
  const width = Math.round(CROSSFADE * RATE);
  const shortest = Math.round(Math.max(SHORTEST * RATE, FEWEST_PERIODS * period));
  let best = { start: 0, end: 0, likeness: -1 };
  for (let start = earliest; start <= earliest + 0.4 * RATE && best.likeness < ENOUGH; start += Math.round(0.02 * RATE)) {
    for (let length = shortest; length <= Math.max(LONGEST * RATE, 1.5 * shortest); length += coarse) {
      const end = start + length;
      if (end > latest) break;
      const rough = likeness(samples, start, end, width, 8);
      if (rough > best.likeness - 0.1) {
        for (let fine = end - coarse; fine <= end + coarse; fine++) {
          const close = likeness(samples, start, fine, width, 4);
          if (fine <= latest && close > best.likeness) best = { start, end: fine, likeness: close };
        }
      }
    }
  }
  return best;
}

/** The waves before two places compared, 1 for equal ones; one that is louder is less alike. */
function likeness(samples, one, other, width, step) {
  let product = 0;
  let first = 0;
  let second = 0;
  for (let back = 1; back <= width; back += step) {
    const a = samples[one - back];
    const b = samples[other - back];
    product += a * b;
    first += a * a;
    second += b * b;
  }
  return (2 * product) / (first + second);
}

/** The note with its loop gone round so often, as the player sounds it: cross-faded, the power kept where the two waves are not alike. */
export function goneRound(samples, { start, end }, passes) {
  const width = Math.min(Math.round(CROSSFADE * RATE), start);
  const alike = Math.max(0, likeness(samples, start, end, width, 1));
  const closed = samples.slice(0, end);
  for (let index = 0; index < width; index++) {
    const share = (index + 1) / width;
    const power = share ** 2 + (1 - share) ** 2 + 2 * share * (1 - share) * alike;
    closed[end - width + index] = ((1 - share) * samples[end - width + index] + share * samples[start - width + index]) / Math.sqrt(power);
  }
  const all = new Float32Array(end + passes * (end - start));
  all.set(closed);
  for (let pass = 0; pass < passes; pass++) all.set(closed.subarray(start), end + pass * (end - start));
  return all;
}
