import { refused } from "../units/outcome.ts";

/* Sentences that more than one edit refuses with: the fact first, then the way out. */

/** An address, a range or a place for bars lies outside the score. */
export const NO_SUCH_BAR = refused("There is no bar there.");
/** An edit of a note names a rest. */
export const NO_NOTE = refused("There is no note here.");
/** What is put down would end after the score does. */
export const NO_ROOM = refused("That runs past the last bar. Insert bars first.");
/** A length, or what a cut leaves over, that no note value shows. */
export const TOO_SHORT = refused("That would leave something shorter than a 32nd. Make it longer, or move it by a step.");
/** A tuplet would be cut off its grid, or left without some of its notes. */
export const CUTS_TUPLET = refused(
  "That would cut a triplet or duplet where it has no note. Clear it first, or change its notes one by one.",
);
/** Gracenotes, strike-ins and cut-offs on another player's line. */
export const PIPES_ONLY = refused("Only the pipes have that.");
/** Chanter notes for a concert line, or the reverse. */
export const OTHER_KIND = refused("A chanter note goes on a pipe line, a concert pitch on another player’s.");
