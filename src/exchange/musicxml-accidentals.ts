import type { Letter, Spelling } from "../pitch/concert-pitch.ts";
import { stepOf } from "../pitch/transpose.ts";
import type { Sign } from "./musicxml-signs.ts";

/** Accidentals by the semitones they stand for, from a double flat up, as the format names them. */
const NAMES = ["flat-flat", "flat", "natural", "sharp", "double-sharp"] as const;

/**
 * The accidental printed before each pitch of each sign of a bar, or null: what the signature and the bar so far do not say.
 * A note tied over the bar line needs none, and says nothing to the notes after it.
 */
export function printedAccidentals(
  signs: readonly Sign[],
  inSignature: (letter: Letter) => number,
): readonly (readonly (string | null)[])[] {
  const inForce = new Map<number, number>();
  return signs.map((sign) =>
    sign.pitches.map((pitch) => {
      if (sign.tiedFrom) return null;
      const step = stepOf(pitch);
      const understood = inForce.get(step) ?? inSignature(pitch.letter);
      inForce.set(step, pitch.alter);
      return understood === pitch.alter ? null : accidentalName(pitch);
    }),
  );
}

function accidentalName({ alter }: Spelling): string | null {
  return NAMES[alter + 2] ?? null;
}
