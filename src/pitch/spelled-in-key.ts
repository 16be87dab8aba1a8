import type { ConcertPitch, Letter } from "./concert-pitch.ts";
import type { Key } from "./key.ts";
import { fifthsOf, pitchClassAtFifths } from "./key-signature.ts";
import { LETTER_SEMITONES, positiveModulo } from "./letter.ts";
import { alterOf, pitchFromSpelling } from "./spelling.ts";

/** How far down the line of fifths from the signature's own seven notes a spelling may reach: the lowered third and seventh. */
const FIFTHS_BELOW = 3;

/**
 * A semitone (MIDI numbering) spelled as it is read in a key: the key's own notes as they stand in the signature; of the others the
 * lowered third and seventh as lowered, the raised first, fourth and fifth as raised (degrees of the major scale with that signature).
 */
export function spelledInKey(semitone: number, key: Key): ConcertPitch {
  const lowest = fifthsOf(key) - FIFTHS_BELOW;
  // Seven fifths make a semitone (in pitch classes), and seven is its own inverse modulo twelve.
  const place = lowest + positiveModulo(semitone * 7 - lowest, 12);
  const name = pitchClassAtFifths(place);
  const letter = name.slice(0, 1) as Letter;
  const alter = alterOf(name.slice(1));
  return pitchFromSpelling({ letter, alter, octave: (semitone - alter - LETTER_SEMITONES[letter]) / 12 - 1 });
}
