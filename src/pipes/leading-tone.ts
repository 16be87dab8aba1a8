import type { Key } from "../pitch/key.ts";
import { tonicPitchClass } from "../pitch/key-signature.ts";
import { positiveModulo } from "../pitch/letter.ts";
import { semitoneOfSpelling } from "../pitch/semitone.ts";
import { CHANTER_NOTES, type ChanterNote, isCrossFingered } from "./chanter-note.ts";
import type { PipeSetup } from "./pipe-setup.ts";
import { speaks, transpositionOf } from "./sounding.ts";
import { writtenSpellingOf } from "./written-pitch.ts";

/** How a chanter has the note a semitone under a tonic. */
export type LeadingTone =
  /** One of the nine: nothing is needed. */
  | { readonly kind: "plain"; readonly note: ChanterNote }
  | { readonly kind: "cross-fingered"; readonly note: ChanterNote; readonly speaks: boolean }
  /** The chanter has no such note. */
  | { readonly kind: "none" };

/**
 * The leading tone of a concert key on this setup: the chanter note a semitone under its tonic. In written D it is plain C, in written G
 * plain F, in written A high G sharp; in written E and B there is none.
 */
export function leadingToneOf(setup: PipeSetup, concertKey: Key): LeadingTone {
  const written = positiveModulo(tonicPitchClass(concertKey) - 1 - transpositionOf(setup).chromatic, 12);
  const note = CHANTER_NOTES.find((candidate) => semitoneOfSpelling(writtenSpellingOf(candidate)) % 12 === written);
  if (!note) return { kind: "none" };
  return isCrossFingered(note) ? { kind: "cross-fingered", note, speaks: speaks(setup, note) } : { kind: "plain", note };
}
