import type { PlainNote } from "../pipes/chanter-note.ts";
import { type Figure, figuresAt } from "../pipes/figures.ts";
import { lettersOfGracenotes } from "../pipes/gracenote-letters.ts";
import type { GraceSite } from "./grace-sites.ts";

/** Figures are no longer than this many notes. */
const LONGEST = 3;

/** Whether the note at an index may be given gracenotes, or has the very ones. */
export type MayHave = (index: number, gracenotes: readonly PlainNote[]) => boolean;

/**
 * What a note has as part of a figure over it and its neighbours, or null. A figure begins on a beat, is played whole or not at all, and its
 * short note is shorter than its long one; like notes begin within one beat, or the figures use up the run of them.
 */
export function figureOver(
  sites: readonly GraceSite[],
  index: number,
  names: readonly Figure["name"][],
  mayHave: MayHave,
): readonly PlainNote[] | null {
  for (let first = index; first > index - LONGEST && first >= 0; first -= 1) {
    const members = sites.slice(first, first + LONGEST);
    for (const figure of figuresAt(members.map(({ note }) => note.note))) {
      const own = figure.notes[index - first];
      if (
        own !== undefined &&
        names.includes(figure.name) &&
        isPlayed(figure, members, (place, gracenotes) => mayHave(first + place, gracenotes))
      )
        return own.gracenotes;
    }
  }
  return null;
}

function isPlayed(figure: Figure, members: readonly GraceSite[], mayHave: MayHave): boolean {
  const [first] = members;
  if (first === undefined || first.place === "between") return false;
  const { length } = figure.notes;
  if (figure.name === "gde" && !fillsRun(first, length) && !isInOneBeat(first, members[length - 1] as GraceSite)) return false;
  return figure.notes.every((wanted, place) => {
    const site = members[place] as GraceSite;
    const follows = place === 0 || site.before.includes(members[place - 1] ?? null);
    const next = figure.notes[place + 1];
    const isShorter = wanted.length !== "short" || next?.length !== "long" || site.lasts < (members[place + 1]?.lasts ?? 0);
    return follows && isShorter && mayHave(place, wanted.gracenotes);
  });
}

function fillsRun({ likeBefore, run }: GraceSite, length: number): boolean {
  return likeBefore % length === 0 && run.length % length === 0;
}

/** Whether the last begins before the beat is over that the first begins. */
function isInOneBeat(first: GraceSite, last: GraceSite): boolean {
  return first.address.bar === last.address.bar && last.address.at < first.address.at + first.beat;
}

/** Whether two spellings are the same. */
export function sameGracenotes(one: readonly PlainNote[], other: readonly PlainNote[]): boolean {
  return lettersOfGracenotes(one) === lettersOfGracenotes(other);
}
