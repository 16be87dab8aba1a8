import { CHANTER_NOTES, type ChanterNote, type PlainNote } from "./chanter-note.ts";

/** A gracenote by one finger lifted, named by the note it looks like in print. */
export const LIFTED_GRACENOTES = ["high-g", "d", "e", "high-a"] as const satisfies readonly PlainNote[];

/** From which note upwards the finger of each lifted gracenote is off already, so that there is nothing to lift. */
const OUT_OF_REACH_FROM: Readonly<Record<(typeof LIFTED_GRACENOTES)[number], ChanterNote>> = {
  "high-g": "high-g",
  d: "d",
  e: "e",
  "high-a": "high-a",
};

/**
 * The lifted gracenotes that can be played upon a note: G under high G, D under D, E under E, the thumb under high A. Two high As are
 * divided by a strike, printed as a G. *Source:* a gracenote is one finger lifted upon the fingering beneath it (graded lessons); which
 * follow is arithmetic on the fingerings.
 */
export function gracenotesInReach(note: ChanterNote): readonly PlainNote[] {
  if (note === "high-a") return ["high-g"];
  // High G sharp is fingered with the thumb off and the first finger down: the finger can be lifted, the thumb cannot.
  if (note === "high-g-sharp") return ["high-g"];
  const height = CHANTER_NOTES.indexOf(note);
  return LIFTED_GRACENOTES.filter((gracenote) => height < CHANTER_NOTES.indexOf(OUT_OF_REACH_FROM[gracenote]));
}
