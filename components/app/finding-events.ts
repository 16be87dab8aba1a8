import type { Edit } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";

/** A cure was taken: the edits that carry it out. */
export type CureTakenEvent = CustomEvent<{ readonly label: string; readonly edits: readonly Edit[] }>;
/** A finding was pressed: show where it is. */
export type FindingChosenEvent = CustomEvent<{ readonly finding: Finding }>;
