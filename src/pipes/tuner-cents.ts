import { semitoneOfSpelling } from "../pitch/semitone.ts";
import { type Cents, cents } from "../units/cents.ts";
import { type ChanterNote, NINE_NOTES, type PlainNote } from "./chanter-note.ts";
import type { ChanterScale } from "./pipe-setup.ts";
import { centsInScale } from "./scales.ts";
import { writtenSpellingOf } from "./written-pitch.ts";

const LOW_A_SEMITONE = semitoneOfSpelling(writtenSpellingOf("low-a"));

/** Where equal temperament has a note, cents over low A: 400 for C. */
export function equalCentsOf(note: ChanterNote): Cents {
  return cents(100 * (semitoneOfSpelling(writtenSpellingOf(note)) - LOW_A_SEMITONE));
}

/** What a tuner reads for a note so many cents over low A, once it has been set so that low A reads 0. */
export function tunerReading(note: ChanterNote, overLowA: Cents): Cents {
  return cents(overLowA - equalCentsOf(note));
}

/** The measured scale in which one note reads so on such a tuner, the other notes as they were in a scale of any kind. Low A is 0 whatever is said. */
export function withTunerReading(scale: ChanterScale, note: PlainNote, reading: Cents): ChanterScale {
  const entries = NINE_NOTES.map((own) => {
    if (own === "low-a") return [own, cents(0)] as const;
    return [own, own === note ? cents(equalCentsOf(own) + reading) : centsInScale(scale, own)] as const;
  });
  return { kind: "measured", cents: Object.fromEntries(entries) as Record<PlainNote, Cents> };
}
