/** What a part's pages show besides its music. */
export interface PartStyle {
  /** Hole charts over cross-fingered notes where they are new to the eye, or over every note, as a learner wants them. Pipe parts only. */
  readonly charts: "cross-fingered" | "every-note";
  /** Whether the pipe part has the band's chords over its staff, at written pitch. Other players always have theirs. */
  readonly chords: boolean;
}

/** As pipers and bands are used to parts. */
export const PLAIN_STYLE: PartStyle = { charts: "cross-fingered", chords: false };
