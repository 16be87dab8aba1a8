import { droneConcertPitch, droneHertz, soundingDrones } from "../pipes/drones.ts";
import { shownPitch } from "../pitch/spelling.ts";
import { pipeLines } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import type { Hertz } from "../units/hertz.ts";

/** A steady tone to tune to. */
export interface TuningTone {
  /** `low A`, `tenor`, `the band’s A`; with the line's name where there are two sets of pipes. */
  readonly name: string;
  /** What it is called at concert pitch: `B♭4`. */
  readonly pitch: string;
  readonly hertz: Hertz;
  /** Which voice sounds it. */
  readonly voice: "chanter" | "drone" | "band";
}

/** What there is to tune to: each set's low A and its drones that are on (two of one pitch once), and the band's A. */
export function tuningTones(score: Score): readonly TuningTone[] {
  const lines = pipeLines(score);
  const tones = lines.flatMap(({ name: line, setup }): readonly TuningTone[] => {
    const named = (name: string) => (lines.length > 1 ? `${line}, ${name}` : name);
    const drones = new Map(
      soundingDrones(setup)
        .toReversed()
        .map((drone): [string, TuningTone] => {
          const hertz = droneHertz(setup, drone);
          return [
            `${drone.name} ${hertz}`,
            { name: named(drone.name), pitch: shownPitch(droneConcertPitch(setup, drone)), hertz, voice: "drone" },
          ];
        }),
    );
    return [{ name: named("low A"), pitch: shownPitch(setup.lowAIs), hertz: setup.lowA, voice: "chanter" }, ...drones.values()];
  });
  return [...tones, { name: "the band’s A", pitch: "A4", hertz: score.bandA, voice: "band" }];
}
