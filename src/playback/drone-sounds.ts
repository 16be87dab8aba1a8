import { droneHertz } from "../pipes/drones.ts";
import type { Drone } from "../pipes/pipe-setup.ts";
import type { LineId } from "../score/line-id.ts";
import type { PipeLine } from "../score/score.ts";
import { type Hertz, hertz } from "../units/hertz.ts";
import type { Seconds } from "../units/seconds.ts";
import type { ChanterSpan } from "./chanter-spans.ts";

/** One drone, sounding without a break. */
export interface DroneSound {
  readonly line: LineId;
  readonly name: Drone["name"];
  readonly hertz: Hertz;
  readonly start: Seconds;
  readonly stop: Seconds;
}

/**
 * How much sharper each further drone of one pitch stands than the one before. Two tenors are never quite one; a beat in six seconds is
 * what a well-tuned pair still does. From memory, and set by ear: no measurement is published that we know.
 */
export const UNISON_BEAT: Hertz = hertz(0.15);

/**
 * The drones of a line that are on: from `lead` before the first strike-in to the last cut-off. None where the chanter never sounds.
 */
export function droneSounds(
  line: PipeLine,
  spans: readonly ChanterSpan[],
  lead: Seconds,
  beat: number = UNISON_BEAT,
): readonly DroneSound[] {
  const [first, last] = [spans[0], spans.at(-1)];
  if (first === undefined || last === undefined) return [];
  const met = new Map<number, number>();
  return line.setup.drones
    .filter((drone) => drone.on)
    .map((drone) => {
      const inTune = droneHertz(line.setup, drone);
      const before = met.get(inTune) ?? 0;
      met.set(inTune, before + 1);
      return {
        line: line.id,
        name: drone.name,
        hertz: hertz(inTune + before * beat),
        start: Math.max(0, first.start - lead) as Seconds,
        stop: last.stop,
      };
    });
}
