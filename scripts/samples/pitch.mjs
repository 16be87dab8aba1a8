import { RATE } from "./render.mjs";

/** The equal-tempered frequency of a MIDI key at A 440. */
export function hertzOfKey(key) {
  return 440 * 2 ** ((key - 69) / 12);
}

/**
 * How far a note lies from its key at A 440, cents, averaged over samples `from` to `to`: over whole cycles of a vibrato that is where it is heard.
 * Each of the first harmonics is brought down to zero frequency; how fast its phase still turns says how far off it is. Strong ones count more.
 * `harmonics` 1: by the fundamental alone, where the others are stretched (a piano's strings).
 */
export function measuredCents(samples, key, from, to, harmonics = 4) {
  const nominal = hertzOfKey(key);
  let sum = 0;
  let weights = 0;
  for (let harmonic = 1; harmonic <= harmonics && harmonic * nominal < RATE / 2.5; harmonic++) {
    const { hertz, amplitude } = followed(samples, harmonic * nominal, nominal, from, to);
    const weight = amplitude ** 2 * harmonic ** 2;
    sum += weight * 1200 * Math.log2((harmonic * nominal + hertz) / (harmonic * nominal));
    weights += weight;
  }
  return sum / weights;
}

/** By how many hertz a partial lies above where it is looked for, and how strong it is. */
function followed(samples, hertz, fundamental, from, to) {
  // Wide enough that the neighbouring harmonics fall into the window's zeros; often enough that a quarter tone turns less than half a circle.
  const width = Math.round((6 * RATE) / fundamental);
  const hop = Math.max(1, Math.floor(RATE / (hertz * 0.12)));
  const phases = [];
  let amplitude = 0;
  for (let start = from; start + width <= to; start += hop) {
    const [re, im] = demodulated(samples, hertz, start, width);
    phases.push({ at: start, phase: Math.atan2(im, re) });
    amplitude += Math.hypot(re, im);
  }
  if (phases.length < 2) throw new RangeError("The stretch is too short to measure.");
  let turned = 0;
  for (let index = 1; index < phases.length; index++) {
    let step = phases[index].phase - phases[index - 1].phase;
    step -= 2 * Math.PI * Math.round(step / (2 * Math.PI));
    turned += step;
  }
  const seconds = (phases.at(-1).at - phases[0].at) / RATE;
  return { hertz: turned / (2 * Math.PI) / seconds, amplitude: amplitude / phases.length };
}

function demodulated(samples, hertz, start, width) {
  const turn = (2 * Math.PI * hertz) / RATE;
  let re = 0;
  let im = 0;
  for (let index = 0; index < width; index++) {
    const at = start + index;
    const weighted = samples[at] * (0.5 - 0.5 * Math.cos((2 * Math.PI * index) / width));
    re += weighted * Math.cos(turn * at);
    im -= weighted * Math.sin(turn * at);
  }
  return [re / width, im / width];
}
