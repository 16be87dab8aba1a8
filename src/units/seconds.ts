import type { Unit } from "./unit.ts";

/** Time in seconds, from the start of whatever is being timed. */
export type Seconds = Unit<"seconds">;

/**
 * Marks a number as seconds.
 * @throws RangeError when it is not finite.
 */
export function seconds(value: number): Seconds {
  if (!Number.isFinite(value)) throw new RangeError(`Seconds are a finite number, not ${value}.`);
  return value as Seconds;
}
