import { semitoneOf } from "../pitch/semitone.ts";
import type { Rest, Syllable, Tuplet } from "../score/bar.ts";
import type { Content } from "../score/edit.ts";
import type { LineNote } from "../score/like-events.ts";
import { MOST_PITCHES } from "../score/limits.ts";
import type { Line } from "../score/score.ts";
import type { Ticks } from "../units/ticks.ts";

/** A rest so long. */
export function restOf(length: number): Rest {
  return { kind: "rest", ticks: length as Ticks, tuplet: null };
}

/** A plain note of this content, so long. */
export function noteOf(content: Content, length: number, tuplet: Tuplet, syllables: readonly Syllable[]): LineNote {
  const timed = { kind: "note", ticks: length as Ticks, tuplet, tied: false, syllables } as const;
  return content.kind === "pipes"
    ? { ...timed, note: content.note, gracenotes: [], strikeIn: false, cutOff: false }
    : { ...timed, pitches: inOrder(content) };
}

/** The same note with another pitch. */
export function withContent(note: LineNote, content: Content): LineNote {
  if (content.kind === "pipes") return "note" in note ? { ...note, note: content.note } : note;
  return "note" in note ? note : { ...note, pitches: inOrder(content) };
}

/** Whether a line can take such content: chanter notes for pipes, at least one pitch (and no more than hands have fingers) for another player. */
export function suits(line: Line, content: Content): boolean {
  return line.kind === content.kind && (content.kind === "pipes" || (content.pitches.length > 0 && content.pitches.length <= MOST_PITCHES));
}

/** The pitches lowest first, each once. */
function inOrder(content: Content & { readonly kind: "concert" }): (Content & { readonly kind: "concert" })["pitches"] {
  return [...new Set(content.pitches)].sort((one, other) => semitoneOf(one) - semitoneOf(other));
}
