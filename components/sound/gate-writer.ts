import { type GatePoint, gateAt } from "../../src/playback/gate.ts";
import type { Seconds } from "../../src/units/seconds.ts";

/** How long a sound takes to go over to what a changed score says, in seconds. */
const GLIDE = 0.006;

/** Writes a gate's line onto a gain, a stretch at a time, and can change its mind about what lies ahead. All times are the audio clock's. */
export class GateWriter {
  readonly #gain: AudioParam;
  #points: readonly GatePoint[] = [];
  #written = 0;

  /** @param gain must be 0 and untouched */
  constructor(gain: AudioParam) {
    this.#gain = gain;
  }

  /** From a time on, another line; the gain gets there without a jump. */
  follow(points: readonly GatePoint[], from: number): void {
    this.writeUntil(from);
    const before = this.#points;
    const now = gateAt(before, from);
    const glided = from + GLIDE;
    this.#points = [point(from, now), point(glided, gateAt(points, glided)), ...points.filter(({ at }) => at > glided)];
    this.#gain.cancelScheduledValues(from);
    // A straight line that was cut off would jump back to where it began, so its first part is drawn again.
    if (before.length === 0) this.#gain.setValueAtTime(now, from);
    else this.#gain.linearRampToValueAtTime(now, from);
    this.#written = 1;
  }

  /** Writes every piece of the line that begins before a time. */
  writeUntil(time: number): void {
    for (; this.#written < this.#points.length; this.#written += 1) {
      const next = this.#points[this.#written] as GatePoint;
      if ((this.#points[this.#written - 1]?.at ?? 0) > time) return;
      this.#gain.linearRampToValueAtTime(next.value, next.at);
    }
  }
}

function point(at: number, value: number): GatePoint {
  return { at: at as Seconds, value };
}
