/** Bounds on what is read, so that no file can fill the memory or take for ever. Well beyond any song. */

/** Most bytes of a file, and of what a .mxl file unpacks to. */
export const MOST_BYTES = 32 * 1024 * 1024;

/** Deepest nesting of XML elements; MusicXML itself needs about ten. */
export const DEEPEST = 64;

/** Most elements of an XML file. */
export const MOST_ELEMENTS = 3_000_000;

/** Most notes of a song. */
export const MOST_NOTES = 200_000;

/** Most bars of a song. */
export const MOST_BARS = 20_000;

/** Most lines of a song. */
export const MOST_LINES = 256;

/** Longest song in quarters: a day at 70 in a minute. */
export const MOST_QUARTERS = 100_000;
