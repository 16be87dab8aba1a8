import type { Key } from "../pitch/key.ts";
import { readableKey, tonicOf, transposedKey } from "../pitch/key-signature.ts";
import { letterIndex, positiveModulo } from "../pitch/letter.ts";
import type { Transposition } from "../pitch/transpose.ts";
import type { Player } from "./player.ts";

/** The key a player reads, and the interval that spells the notes to agree with it. */
export interface PartKey {
  readonly key: Key;
  /** What to add to the sounding pitch to get the written one; a staff step off the player's own where the key was respelled. */
  readonly transposition: Transposition;
}

/**
 * What a player reads when the band is in a (concert) key: never above six accidentals in the signature, taking the enharmonic key with
 * fewer, and then spelling every note by it. An alto saxophone in concert B major reads A flat, not G sharp.
 */
export function partKeyOf(player: Player, concertKey: Key): PartKey {
  const { diatonic, chromatic } = player.transposition;
  const plain = transposedKey(concertKey, diatonic, chromatic);
  const key = readableKey(plain);
  const difference = letterIndex(tonicOf(key).letter) - letterIndex(tonicOf(plain).letter);
  // One letter up or down, the short way round the seven.
  const steps = positiveModulo(difference + 3, 7) - 3;
  return { key, transposition: { diatonic: diatonic + steps, chromatic } };
}
