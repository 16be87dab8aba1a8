/* How large a sketch may be. Far beyond any set; they keep a damaged or hostile file from filling the memory. */

/** Bars in a score. */
export const MOST_BARS = 5000;

/** Lines in a score. */
export const MOST_LINES = 40;

/** Events in a bar: 64/2 in triplet 32nds has 1,536. */
export const MOST_EVENTS = 1600;

/** Beats in a bar. */
export const MOST_BEATS = 64;

/** Characters in a name or a title. */
export const LONGEST_TEXT = 500;

/** Gracenotes on a note; the longest embellishments have five. */
export const MOST_GRACENOTES = 12;

/** Verses of words under a note. */
export const MOST_VERSES = 12;

/** Pitches struck together. */
export const MOST_PITCHES = 12;

/** Chords in a bar. */
export const MOST_CHORDS = 64;

/** Octaves a player may double away from the pipes, up or down. */
export const MOST_OCTAVES = 4;

/** Characters in a saved sketch. */
export const LONGEST_FILE = 50_000_000;
