/** Intervals up to two octaves as musicians say them, by semitones. The tritone is called a fourth or fifth by nobody, so it keeps its name. */
const WORDS = [
  "a unison",
  "a semitone",
  "a tone",
  "a minor third",
  "a major third",
  "a fourth",
  "a tritone",
  "a fifth",
  "a minor sixth",
  "a major sixth",
  "a minor seventh",
  "a major seventh",
  "an octave",
  "a minor ninth",
  "a ninth",
] as const;

/** The size of an interval in words: 7 is `a fifth`, 12 `an octave`; beyond a ninth, so many semitones. The direction is not said. */
export function intervalWords(semitones: number): string {
  const size = Math.abs(semitones);
  return WORDS[size] ?? `${size} semitones`;
}
