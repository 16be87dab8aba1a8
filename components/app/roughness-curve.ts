import { svg } from "lit";
import { ordinal } from "../../src/playback/audition-words.ts";
import type { JudgedNote } from "../../src/playback/judged-note.ts";
import { shownNumber } from "../../src/units/shown.ts";

const WIDTH = 360;
const HEIGHT = 130;
const FOOT = 104;
const TOP = 14;

/** Marks nearer to each other than this would run into one another, px. */
const APART = 46;

/**
 * How rough a note is, were it up to 50 cents lower or higher: the curve, the note on it, and where band and drone are. What a reader of the page
 * needs of it stands in the figures under it; `label` says it to those who hear the page.
 */
export function roughnessCurve({ curve, offBand, offDrone, dissonance, concert }: JudgedNote, hollow: boolean) {
  const most = Math.max(1e-9, ...curve.map((point) => point.dissonance));
  const least = Math.min(...curve.map((point) => point.dissonance));
  const x = (cents: number) => ((cents + 50) / 100) * (WIDTH - 20) + 10;
  const y = (value: number) => FOOT - 6 - ((value - least) / Math.max(1e-9, most - least)) * (FOOT - TOP - 16);
  const line = curve
    .map((point, index) => `${index === 0 ? "M" : "L"}${x(point.cents).toFixed(1)} ${y(point.dissonance).toFixed(1)}`)
    .join("");
  const band = -offBand;
  const drone = offDrone === null ? null : -offDrone.cents;
  const mark = (cents: number, words: string, kind: string, row: number) =>
    Math.abs(cents) > 50
      ? null
      : svg`<path class=${kind} d=${`M${x(cents).toFixed(1)} ${TOP + row * 12}V${FOOT}`}></path><text class="mark" x=${x(cents)} y=${TOP - 3 + row * 12} text-anchor=${cents > 25 ? "end" : cents < -25 ? "start" : "middle"}>${words}</text>`;
  const crowded = drone !== null && Math.abs(x(band) - x(drone)) < APART;
  const label = `Roughness ${shownNumber(dissonance, 2)}. Smoothest ${shownNumber(lowestOf(curve), 0)} cents from here.`;
  return svg`<svg class="curve" viewBox=${`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label=${label}>
    <path class="area" d=${`${line}L${x(50)} ${FOOT}L${x(-50)} ${FOOT}Z`}></path>
    ${drone === null ? null : mark(drone, offDrone?.partial === 1 ? "drone" : `drone’s ${ordinal(offDrone?.partial ?? 1)}`, "drone-at", 0)}
    ${mark(band, `band ${concert.replace("#", "♯").replace("b", "♭")}`, "band-at", crowded ? 1 : 0)}
    <path class="line" d=${line}></path>
    <path class="foot" d=${`M10 ${FOOT}H${WIDTH - 10}`}></path>
    ${[-50, -25, 0, 25, 50].map((cents) => svg`<text class="tick" x=${x(cents)} y=${FOOT + 16} text-anchor=${cents === 50 ? "end" : cents === -50 ? "start" : "middle"}>${cents === 0 ? "0" : `${cents > 0 ? "+" : "−"}${Math.abs(cents)}`}${cents === 50 ? " cents" : ""}</text>`)}
    <circle class=${hollow ? "here hollow" : "here"} cx=${x(0)} cy=${y(dissonance)} r="5.5"></circle>
    <text class="value" x=${x(0) + 12} y=${y(dissonance) + 4}>${shownNumber(dissonance, 2)}</text>
  </svg>`;
}

function lowestOf(curve: JudgedNote["curve"]): number {
  return curve.reduce((best, point) => (point.dissonance < best.dissonance ? point : best), {
    cents: 0,
    dissonance: Number.POSITIVE_INFINITY,
  }).cents;
}
