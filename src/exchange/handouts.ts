import { chartPagesOf } from "../engraving/chart-pages.ts";
import type { PageDrawing, Paper } from "../engraving/page-drawing.ts";
import { pagesOf } from "../engraving/pages.ts";
import type { LineId } from "../score/line-id.ts";
import type { Line, Score } from "../score/score.ts";
import { partFileNames, revisedFileName } from "./file-names.ts";

/** What a player can be handed on paper: the part; for pipers also the part with a chart at every note, and the chart page of their setup. */
export type HandoutKind = "part" | "learner" | "charts";

/** What may be chosen about handouts. */
export interface HandoutChoice {
  readonly paper: Paper;
  /** Whether pipe parts have the band's chords; others always do. */
  readonly chords: boolean;
}

/** Something handed to one player on paper. */
export interface Handout {
  readonly player: LineId;
  readonly kind: HandoutKind;
  /** Whose and what it is, in words: `Pipes, learner’s part`. */
  readonly label: string;
  /** With the revision, without an ending. */
  readonly fileName: string;
  /** Engraved when they are first asked for. */
  readonly pages: readonly PageDrawing[];
}

/** What the kinds are called beside a player's name, on paper and in a file's name; the part itself needs no word. */
const WORDS: Readonly<Record<HandoutKind, { readonly label: string; readonly file: string } | null>> = {
  part: null,
  learner: { label: "learner’s part", file: "learner" },
  charts: { label: "chart page", file: "chart page" },
};

/** The kinds a player can be handed, the usual one first. */
export function handoutKindsFor(line: Line): readonly HandoutKind[] {
  return line.kind === "pipes" ? ["part", "learner", "charts"] : ["part"];
}

/** One handout of a line. */
export function handoutOf(score: Score, line: Line, kind: HandoutKind, { paper, chords }: HandoutChoice): Handout {
  const word = WORDS[kind];
  return {
    player: line.id,
    kind,
    label: word === null ? line.name : `${line.name}, ${word.label}`,
    fileName: handedFileName(score, line, word?.file ?? null),
    get pages() {
      if (line.kind === "pipes" && kind === "charts") return chartPagesOf(score, line, paper);
      return pagesOf(score, line, paper, { charts: kind === "learner" ? "every-note" : "cross-fingered", chords });
    },
  };
}

/** The name of a file made for one player, with the revision, without an ending. */
export function handedFileName(score: Score, line: Line, what: string | null = null): string {
  const names = partFileNames(
    score.title,
    score.lines.map(({ name }) => name),
  );
  return revisedFileName(names[score.lines.indexOf(line)] ?? line.name, what, score.revision);
}
