import { refused } from "../units/outcome.ts";

/* Sentences that more than one edit refuses with: the fact first, then the way out. */

export const NO_SUCH_BAR = refused("There is no bar there.");
export const NO_NOTE = refused("There is no note here.");
export const NO_ROOM = refused("That runs past the last bar. Insert bars first.");
export const TOO_SHORT = refused("That would leave something shorter than a 32nd. Make it longer, or move it by a step.");
export const CUTS_TUPLET = refused(
  "That would cut a triplet or duplet where it has no note. Clear it first, or change its notes one by one.",
);
export const PIPES_ONLY = refused("Only the pipes have that.");
export const OTHER_KIND = refused("A chanter note goes on a pipe line, a concert pitch on another player’s.");
