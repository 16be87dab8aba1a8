import type { Key, Mode } from "../pitch/key.ts";
import { fifthsOf, pitchClassAtFifths, tonicPitchClass } from "../pitch/key-signature.ts";

/**
 * The key on a tonic by its semitone class, 0 to 11 from C, spelled with the fewest accidentals in its signature; six sharps rather than six
 * flats. So a key has one name, however a file spelled it.
 */
export function keyWithFewestAccidentals(tonicClass: number, mode: Mode): Key {
  const tonics = Array.from({ length: 24 }, (_, at) => ({ tonic: pitchClassAtFifths(at - 9), mode }));
  const fitting = tonics.filter((key) => tonicPitchClass(key) === tonicClass);
  return fitting.reduce((best, key) => (effort(key) < effort(best) ? key : best));
}

function effort(key: Key): number {
  const fifths = fifthsOf(key);
  return Math.abs(fifths) * 2 + (fifths < 0 ? 1 : 0);
}
