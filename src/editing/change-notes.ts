import type { PlainNote } from "../pipes/chanter-note.ts";
import type { Syllable } from "../score/bar.ts";
import { barAtTime, barStarts, scoreTicks } from "../score/bar-starts.ts";
import { dividingGracenote } from "../score/dividing-gracenote.ts";
import type { Content } from "../score/edit.ts";
import { isPipeNote, type LineNote, soundAlike } from "../score/like-events.ts";
import { LONGEST_TEXT, MOST_GRACENOTES, MOST_VERSES } from "../score/limits.ts";
import type { LineId } from "../score/line-id.ts";
import type { Score } from "../score/score.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import type { Ticks } from "../units/ticks.ts";
import { around, joined, parted, patched, patchedNote } from "./chanter-marks.ts";
import { restOf, suits, withContent } from "./events-made.ts";
import { type Chain, chainAt, eventAtTime, isNote, lineIn, noteBefore, noteFrom } from "./line-time.ts";
import { overwritten } from "./overwrite.ts";
import { continued } from "./pieces.ts";
import { putDown } from "./place.ts";
import { NO_NOTE, NO_ROOM, OTHER_KIND, PIPES_ONLY, TOO_SHORT } from "./refusals.ts";

/** Gives a note, with all it is tied to, another pitch. */
export function repitch(score: Score, id: LineId, time: number, content: Content): Outcome<Score> {
  const line = lineIn(score, id);
  if (!suits(line, content)) return OTHER_KIND;
  const chain = chainAt(score, line, time);
  if (chain === null) return NO_NOTE;
  return done(patchedChain(score, id, chain, (note) => withContent(note, content)));
}

/**
 * Moves the end of a note. Longer: what follows begins later, or goes when it is covered whole. Shorter: on the pipes the next note, if it touches,
 * begins that much earlier, since the chanter cannot stop; a rest otherwise.
 */
export function resize(score: Score, id: LineId, time: number, length: number): Outcome<Score> {
  const chain = chainAt(score, lineIn(score, id), time);
  if (chain === null) return NO_NOTE;
  const end = chain.from + length;
  if (!(length > 0)) return TOO_SHORT;
  if (end > scoreTicks(score.frames)) return NO_ROOM;
  if (end === chain.to) return done(score);
  return end > chain.to ? lengthened(score, id, chain, end) : shortened(score, id, chain, end);
}

function lengthened(score: Score, id: LineId, chain: Chain, end: number): Outcome<Score> {
  const line = lineIn(score, id);
  const eaten = chainAt(score, line, end);
  const note = filling(chain.note, chain.from, end);
  const stand = around(score, line, chain.from, end);
  const laid = overwritten(score, id, chain.from, end, [isPipeNote(note) ? { ...note, cutOff: stand.cutOffAfter } : note]);
  if (!laid.ok) return laid;
  const onset = eaten !== null && eaten.from >= chain.to && eaten.from < end ? eaten.note : null;
  const kept = onset === null ? laid.value : patchedNote(laid.value, id, end, (tail) => begunAs(tail, onset));
  return done(joined(kept, id, chain.to, end));
}

function shortened(score: Score, id: LineId, chain: Chain, end: number): Outcome<Score> {
  const line = lineIn(score, id);
  const next = line.kind === "pipes" ? chainAt(score, line, chain.to) : null;
  const staying = filling(chain.note, chain.from, end);
  if (next !== null && next.from === chain.to && !(isPipeNote(chain.note) && chain.note.cutOff)) {
    return overwritten(score, id, chain.from, next.to, [staying, filling(next.note, end, next.to)]);
  }
  return overwritten(score, id, chain.from, chain.to, [staying, restOf(chain.to - end)]);
}

/** A tail that begins as a whole note did: with its gracenotes and its words. */
function begunAs(tail: LineNote, onset: LineNote): LineNote {
  if (isPipeNote(tail) && isPipeNote(onset))
    return { ...tail, gracenotes: onset.gracenotes, syllables: onset.syllables, strikeIn: onset.strikeIn };
  return { ...tail, syllables: onset.syllables };
}

/** Takes a note away from one place and puts it down, with all it brings, in another. Where it was, the note before is held, or there is a rest. */
export function move(score: Score, id: LineId, time: number, toId: LineId, to: number, content: Content): Outcome<Score> {
  const line = lineIn(score, id);
  const target = lineIn(score, toId);
  if (line.kind !== target.kind || !suits(target, content)) return OTHER_KIND;
  const chain = chainAt(score, line, time);
  if (chain === null) return NO_NOTE;
  if (id === toId && to === chain.from) return repitch(score, id, time, content);
  const tuplet = chain.from === chain.last.from ? chain.note.tuplet : null;
  const note = withContent({ ...filling(chain.note, chain.from, chain.to), tuplet }, content);
  const vacated = vacate(score, id, chain);
  return vacated.ok ? putDown(vacated.value, toId, to, note) : vacated;
}

/** The score without a note: the note before it is held on the pipes if it touches, otherwise there is a rest. */
function vacate(score: Score, id: LineId, chain: Chain): Outcome<Score> {
  const line = lineIn(score, id);
  const before = line.kind === "pipes" ? chainAt(score, line, chain.from - 1) : null;
  if (before === null) return emptied(score, id, chain.from, chain.to);
  const held = filling(before.note, before.from, chain.to);
  return overwritten(score, id, before.from, chain.to, [
    isPipeNote(held) && isPipeNote(chain.note) ? { ...held, cutOff: chain.note.cutOff } : held,
  ]);
}

/** Divides a note in two. On the pipes the second one gets the gracenote that divides them: without it they would still sound as one. */
export function split(score: Score, id: LineId, time: number, length: number): Outcome<Score> {
  const line = lineIn(score, id);
  const chain = chainAt(score, line, time);
  if (chain === null) return NO_NOTE;
  const at = chain.from + length;
  if (!(length > 0 && at < chain.to)) return refused("A note is split somewhere inside it.");
  const second = { ...filling(chain.note, at, chain.to), syllables: [] };
  if (line.kind !== "pipes" || !isPipeNote(second)) return overwritten(score, id, at, chain.to, [second]);
  const dividing = dividingGracenote(line.setup, second.note);
  const gracenotes = dividing === null ? [] : [dividing.gracenote];
  return overwritten(score, id, at, chain.to, [{ ...second, gracenotes, strikeIn: false }]);
}

/** Ties a note to the next like note, whose gracenotes then go and whose words the first takes if it has none; or unties it. */
export function tie(score: Score, id: LineId, time: number, tied: boolean): Outcome<Score> {
  const line = lineIn(score, id);
  const chain = chainAt(score, line, time);
  if (chain === null) return NO_NOTE;
  if (!tied) {
    const here = eventAtTime(score, line, time);
    if (here === null || !isNote(here) || !here.event.tied) return refused("No tie begins here. Split the note to make two of it.");
    return done(patchedNote(score, id, here.from, (note) => ({ ...note, tied: false })));
  }
  const next = eventAtTime(score, line, chain.to);
  if (next === null || !isNote(next) || !soundAlike(next.event, chain.note))
    return refused("A tie needs the same note right after this one.");
  const words = chain.note.syllables.length > 0 ? chain.note.syllables : next.event.syllables;
  const first = patchedNote(score, id, chain.from, (note) => ({ ...note, syllables: words }));
  const joint = patchedNote(first, id, chain.last.from, (note) =>
    isPipeNote(note) ? { ...note, tied: true, cutOff: false } : { ...note, tied: true },
  );
  return done(patchedNote(joint, id, next.from, (note) => continued(note)));
}

/** Makes a stretch a rest. A phrase that loses its end is cut off where it now ends, one that loses its beginning is struck in where it now begins. */
export function emptied(score: Score, id: LineId, from: number, to: number): Outcome<Score> {
  const line = lineIn(score, id);
  if (!(to > from)) return TOO_SHORT;
  const stand = around(score, line, from, to);
  const laid = overwritten(score, id, from, to, [restOf(to - from)]);
  return laid.ok ? done(parted(laid.value, id, from, to, stand)) : laid;
}

/** Holds the note before through the rests that follow it, up to the next note; where none follows, to the end of the bar. */
export function hold(score: Score, id: LineId, time: number): Outcome<Score> {
  const line = lineIn(score, id);
  const here = eventAtTime(score, line, time);
  if (here === null || here.event.kind !== "rest") return refused("There is no rest here to hold through.");
  const before = noteBefore(score, line, time);
  if (before === null) return refused("There is no note before this rest to hold.");
  const chain = chainAt(score, line, before.from) as Chain;
  const next = noteFrom(score, line, time);
  const end = next?.from ?? (barStarts(score.frames)[barAtTime(score.frames, time) + 1] as number);
  const held = filling(chain.note, chain.from, end);
  const laid = overwritten(score, id, chain.from, end, [isPipeNote(held) && next !== null ? { ...held, cutOff: false } : held]);
  return laid.ok ? done(joined(laid.value, id, chain.to, end)) : laid;
}

/** Gives a pipe note its gracenotes. */
export function grace(score: Score, id: LineId, time: number, gracenotes: readonly PlainNote[]): Outcome<Score> {
  const line = lineIn(score, id);
  if (line.kind !== "pipes") return PIPES_ONLY;
  const chain = chainAt(score, line, time);
  if (chain === null) return NO_NOTE;
  if (gracenotes.length > MOST_GRACENOTES) return refused(`No embellishment has more than ${MOST_GRACENOTES} gracenotes.`);
  return done(patched(score, id, chain.from, (note) => ({ ...note, gracenotes })));
}

/** Gives a note its words. */
export function sing(score: Score, id: LineId, time: number, syllables: readonly Syllable[]): Outcome<Score> {
  const chain = chainAt(score, lineIn(score, id), time);
  if (chain === null) return NO_NOTE;
  if (syllables.some(({ text }) => text.length > LONGEST_TEXT)) return refused(`A syllable has at most ${LONGEST_TEXT} characters.`);
  if (syllables.length > MOST_VERSES) return refused(`A note has words for at most ${MOST_VERSES} verses.`);
  return done(patchedNote(score, id, chain.from, (note) => ({ ...note, syllables })));
}

/** A chain's note as one event over a stretch. */
function filling(note: LineNote, from: number, to: number): LineNote {
  return { ...note, ticks: (to - from) as Ticks, tuplet: null };
}

function patchedChain(score: Score, id: LineId, chain: Chain, change: (note: LineNote) => LineNote): Score {
  let changed = score;
  for (let at = chain.from; at < chain.to; ) {
    const one = eventAtTime(changed, lineIn(changed, id), at);
    if (one === null) break;
    changed = patchedNote(changed, id, one.from, change);
    at = one.to;
  }
  return changed;
}
