/** Names one line of a score; unique in it, stable through edits. */
export type LineId = string;
