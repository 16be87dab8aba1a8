import type { PlainNote } from "./chanter-note.ts";

/**
 * The strikes in use on each note, the most usual first; none on low G, where every finger is down already.
 * *Source:* common practice, partly from memory.
 */
export const USUAL_STRIKES: Readonly<Record<PlainNote, readonly PlainNote[]>> = {
  "low-g": [],
  "low-a": ["low-g"],
  b: ["low-g"],
  c: ["low-g"],
  d: ["low-g", "c"],
  e: ["low-a"],
  f: ["e"],
  "high-g": ["f"],
  "high-a": ["high-g"],
};
