/** The nine notes of the chanter, lowest first. */
export const NINE_NOTES = ["low-g", "low-a", "b", "c", "d", "e", "f", "high-g", "high-a"] as const;

/** The notes that need a cross-fingering and may not speak on every chanter, lowest first. */
export const CROSS_FINGERED_NOTES = ["c-natural", "f-natural", "high-g-sharp"] as const;

/** One of the nine. `c` and `f` sound (written) C sharp and F sharp. */
export type PlainNote = (typeof NINE_NOTES)[number];

/** A note outside the nine, had by a cross-fingering. */
export type CrossFingeredNote = (typeof CROSS_FINGERED_NOTES)[number];

/** What is fingered on the chanter: one of the nine, or a cross-fingered note. Says nothing of how it sounds. */
export type ChanterNote = PlainNote | CrossFingeredNote;

/** Every chanter note from low G to high A, the cross-fingered ones between their neighbours. */
export const CHANTER_NOTES: readonly ChanterNote[] = [
  "low-g",
  "low-a",
  "b",
  "c-natural",
  "c",
  "d",
  "e",
  "f-natural",
  "f",
  "high-g",
  "high-g-sharp",
  "high-a",
];

/** Whether a note lies outside the nine. */
export function isCrossFingered(note: ChanterNote): note is CrossFingeredNote {
  return (CROSS_FINGERED_NOTES as readonly string[]).includes(note);
}
